/** One audio context and one microphone stream for a whole session: what clicks, what listens, and what time it is. */
import type { Reading } from '@evenhand/core/problem';
import type { DeviceProblem } from '@evenhand/core/take';
import type { Click, SoundedClick } from './click.ts';

/** What the browser says it does to the microphone's sound, read back after asking for nothing; null: it does not say. */
export interface GrantedMicrophone {
  readonly label: string;
  readonly deviceId: string;
  readonly sampleRateHz: number | null;
  readonly channelCount: number | null;
  readonly echoCancellation: boolean | null;
  readonly noiseSuppression: boolean | null;
  readonly autoGainControl: boolean | null;
}

export interface EngineOptions {
  /** `asked` opens the microphone too; `none` clicks only. Default `asked`. */
  readonly microphone?: 'asked' | 'none';
  /** A certain microphone, as in `GrantedMicrophone.deviceId`. */
  readonly deviceId?: string;
}

/** Something that plays and can be stopped. `ended` settles when it is over, stopped or not. */
export interface Playing {
  readonly startFrame: number;
  readonly ended: Promise<void>;
  stop(): void;
}

/** The running sound of one session. Frames are frames of its one audio context, whole numbers. */
export interface Engine {
  readonly sampleRateHz: number;
  /** null when it clicks only. */
  readonly microphone: GrantedMicrophone | null;
  /** The frame that is about to be computed: the earliest that can still be scheduled, a few milliseconds ahead of what is heard. */
  nextFrame(): number;
  /** The frame that leaves the loudspeaker now, with fraction; draw by this one. */
  audibleFrame(): number;
  /** Milliseconds since 1970 at which a frame is computed, by this moment's clocks. */
  wallMsOf(frame: number): number;
  /** Adds clicks, in any order, as far ahead as wanted (a whole block at once is best: it sounds on when the page is blocked). A click whose frame has passed is not sounded, and says so. */
  schedule(clicks: readonly Click[]): void;
  /** Forgets the clicks from a frame on (default: all that have not begun). */
  cancelClicks(fromFrame?: number): void;
  /** Told of each click once its frame was computed, with whether it sounded. */
  onClick(listener: (click: SoundedClick) => void): () => void;
  /** Sends the microphone's sound to a port as `CapturedBlock`s, in place of the port before; see EarClient.listenTo. Nothing without a microphone. */
  captureTo(port: MessagePort): void;
  /** Plays samples (mono, full scale ±1) at their own rate from a frame on, default as soon as possible. */
  play(samples: Float32Array<ArrayBuffer>, sampleRateHz: number, fromFrame?: number): Playing;
  /** Told when something goes wrong while running: microphone pulled out, sound interrupted by a call. */
  onProblem(listener: (problem: DeviceProblem) => void): () => void;
  /** Stops clicks, microphone and context. Doing it twice does no harm. */
  close(): Promise<void>;
}

/**
 * Starts the sound. Call it from a click or key of the drummer, or browsers keep the context waiting.
 * @returns the engine with what is doubtful about it: without a usable microphone it still clicks (`microphone` null, the problem beside it);
 *   refused only when there is no audio at all.
 */
export declare function openEngine(options?: EngineOptions): Promise<Reading<Engine, DeviceProblem>>;
