/** The page's side of the Worker that hears and stores takes: promises in place of messages. */
import type { Problem, Reading } from '@evenhand/core/problem';
import type { StickCount } from '@evenhand/core/session';
import { DIARY_NAME } from '../store/store.ts';
import { linkWorker } from './link.ts';
import type {
  FileToHear,
  GlanceRequest,
  HeardTake,
  MeasuredTake,
  MeasureRequest,
  Meter,
  Packed,
  ProvisionalStroke,
  Requests,
  TakeAsked,
} from './protocol.ts';

export { readSoundFile } from './sound-file.ts';

/** Where sound comes from: the engine, or a test. */
export interface SoundSource {
  captureTo(port: MessagePort): void;
}

/** The ear and the take storage. No promise of it rejects: what goes wrong comes as problems. */
export interface EarClient {
  /** Connects the microphone's sound; again by itself when the Worker had to be restarted. */
  listenTo(source: SoundSource): void;
  /**
   * Begins a take; its sound is stored from `fromFrame` on, in chunks of a second at most. That frame may lie ahead, or up to half a minute back.
   * Doubtful (`store-…`) when heard but not stored.
   */
  openTake(asked: TakeAsked): Promise<Reading<true>>;
  /** Moves the end of an open take that was told when it was opened. */
  moveTakeEnd(ask: Requests['moveTakeEnd']['ask']): Promise<Reading<true>>;
  /**
   * Ends a take at `toFrame` (or where it is, when that has passed), hears it as a whole, and writes its record.
   * Waits for the frames up to `toFrame` to arrive; when the microphone is gone the take ends with what there is.
   */
  closeTake(take: Requests['closeTake']['ask']): Promise<Reading<HeardTake>>;
  /** Holds the round that was just played against the exercise while its take goes on: nothing of it is stored. */
  glanceTake(request: GlanceRequest): Promise<Reading<MeasuredTake>>;
  /** Forgets an open take ("don't count that one"): nothing of it is kept. */
  dropTake(takeId: string): Promise<Reading<true>>;
  /** Holds a closed take, or a file heard by this client, against what was to be played. */
  measureTake(request: MeasureRequest): Promise<Reading<MeasuredTake>>;
  /** Hears samples or the bytes of a WAV, AIFF or FLAC file; not stored. */
  hearFile(file: FileToHear): Promise<Reading<HeardTake>>;
  /** Finds clicks again in what the microphone hears: how long they take from the context to the take. */
  measureLoop(ask: Requests['measureLoop']['ask']): Promise<Reading<Requests['measureLoop']['answer']>>;
  /** Completes takes that were being recorded when a browser was killed: heard from their chunks, their records written. Call once at start. */
  recoverTakes(): Promise<Reading<readonly HeardTake[]>>;
  /** Packs one take that is over into FLAC. Ask only while nothing is played or heard: the Worker does nothing else meanwhile. */
  packTake(): Promise<Reading<Packed>>;
  /** Counts of stick clicks are told from now on; `null`: no more. */
  listenForSticks(sampleRateHz: number | null): void;
  onSticks(listener: (counted: StickCount) => void): () => void;
  onStroke(listener: (stroke: ProvisionalStroke) => void): () => void;
  onMeter(listener: (meter: Meter) => void): () => void;
  /** Told of problems nobody asked about: a full disk while recording, the Worker restarted. */
  onProblem(listener: (problem: Problem) => void): () => void;
  close(): void;
}

/**
 * Starts the Worker.
 * @param options.storeName database of the takes, default the drummer's own.
 */
export function startEar({ storeName = DIARY_NAME }: { readonly storeName?: string } = {}): EarClient {
  const told = {
    stroke: new Set<(stroke: ProvisionalStroke) => void>(),
    meter: new Set<(meter: Meter) => void>(),
    sticks: new Set<(counted: StickCount) => void>(),
    problem: new Set<(problem: Problem) => void>(),
  };
  const openTakes = new Map<string, TakeAsked>();
  let source: SoundSource | null = null;
  let sticksAtHz: number | null = null;
  const connect = (): void => {
    if (!source) return;
    const { port1, port2 } = new MessageChannel();
    link.sendInput(port1);
    source.captureTo(port2);
  };
  const link = linkWorker(storeName, {
    onNews(news) {
      if (news.type === 'stroke') tell(told.stroke, news.stroke);
      else if (news.type === 'meter') tell(told.meter, news.meter);
      else if (news.type === 'sticks') tell(told.sticks, news.counted);
      else tell(told.problem, news.problem);
    },
    /** Takes that were open go on in the new Worker, with a gap. */
    onRestart() {
      for (const asked of openTakes.values()) void link.ask('openTake', asked);
      connect();
      if (sticksAtHz !== null) void link.ask('listenForSticks', { on: true, sampleRateHz: sticksAtHz });
    },
  });
  return {
    listenTo(from) {
      source = from;
      connect();
    },
    openTake(asked) {
      openTakes.set(asked.takeId, asked);
      return link.ask('openTake', asked);
    },
    moveTakeEnd({ takeId, toFrame }) {
      const asked = openTakes.get(takeId);
      if (asked) openTakes.set(takeId, { ...asked, toFrame });
      return link.ask('moveTakeEnd', { takeId, toFrame });
    },
    closeTake(take) {
      openTakes.delete(take.takeId);
      return link.ask('closeTake', take);
    },
    dropTake(takeId) {
      openTakes.delete(takeId);
      return link.ask('dropTake', { takeId });
    },
    glanceTake: (request) => link.ask('glanceTake', request),
    measureTake: (request) => link.ask('measureTake', request),
    hearFile: (file) => link.ask('hearFile', file),
    packTake: () => link.ask('packTake', {}),
    measureLoop: (ask) => link.ask('measureLoop', ask),
    recoverTakes: () => link.ask('recoverTakes', {}),
    listenForSticks(sampleRateHz) {
      sticksAtHz = sampleRateHz;
      void link.ask('listenForSticks', { on: sampleRateHz !== null, sampleRateHz: sampleRateHz ?? 0 });
    },
    onSticks: (listener) => added(told.sticks, listener),
    onStroke: (listener) => added(told.stroke, listener),
    onMeter: (listener) => added(told.meter, listener),
    onProblem: (listener) => added(told.problem, listener),
    close: link.close,
  };
}

function tell<What>(listeners: ReadonlySet<(what: What) => void>, what: What): void {
  for (const listener of listeners) listener(what);
}

function added<Listener>(listeners: Set<Listener>, listener: Listener): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}
