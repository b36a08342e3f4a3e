/** The page's side of the Worker that hears and stores takes: promises in place of messages. */
import type { Problem, Reading } from '@evenhand/core/problem';
import type { FileToHear, HeardTake, MeasuredTake, MeasureRequest, Meter, ProvisionalStroke, TakeMeta } from './protocol.ts';

/** Where sound comes from: the engine, or a test. */
export interface SoundSource {
  captureTo(port: MessagePort): void;
}

/** The ear and the take storage. No promise of it rejects: what goes wrong comes as problems. */
export interface EarClient {
  /** Connects the microphone's sound; again by itself when the Worker had to be restarted. */
  listenTo(source: SoundSource): void;
  /** Begins a take; its sound is stored from `fromFrame` on, in chunks of a second at most. Doubtful (`store-…`) when heard but not stored. */
  openTake(meta: TakeMeta): Promise<Reading<true>>;
  /**
   * Ends a take at `toFrame`, hears it as a whole, and writes its record.
   * Waits for the frames up to `toFrame` to arrive; when the microphone is gone the take ends with what there is.
   */
  closeTake(take: { readonly takeId: string; readonly toFrame: number; readonly clicksSec: readonly number[] }): Promise<Reading<HeardTake>>;
  /** Forgets an open take ("don't count that one"): nothing of it is kept. */
  dropTake(takeId: string): Promise<Reading<true>>;
  /** Holds a closed take, or a file heard by this client, against what was to be played. */
  measureTake(request: MeasureRequest): Promise<Reading<MeasuredTake>>;
  /** Hears samples or the bytes of a WAV file; not stored. */
  hearFile(file: FileToHear): Promise<Reading<HeardTake>>;
  /** Completes takes that were being recorded when a browser was killed: heard from their chunks, their records written. Call once at start. */
  recoverTakes(): Promise<Reading<readonly HeardTake[]>>;
  onStroke(listener: (stroke: ProvisionalStroke) => void): () => void;
  onMeter(listener: (meter: Meter) => void): () => void;
  /** Told of problems nobody asked about: gaps, a full disk while recording, the Worker restarted. */
  onProblem(listener: (problem: Problem) => void): () => void;
  close(): void;
}

/**
 * Starts the Worker.
 * @param options.storeName database of the takes, default the drummer's own.
 */
export declare function startEar(options?: { readonly storeName?: string }): EarClient;

/**
 * Reads a sound file that the drummer chose: WAV by our own reader (the same samples as on the command line), all else by the browser, at the file's own rate.
 * @returns what `EarClient.hearFile` takes, or why it cannot be read.
 */
export declare function readSoundFile(file: Blob, takeId: string): Promise<Reading<FileToHear>>;
