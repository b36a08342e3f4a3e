/** Everything page and Worker say to each other. */
import type { ExpectedCycle } from '@evenhand/core/exercise';
import type { Finding, Shape } from '@evenhand/core/finding';
import type { Measurement, TakeSpan } from '@evenhand/core/measurement';
import type { Problem, Reading } from '@evenhand/core/problem';
import type { StickCount } from '@evenhand/core/session';
import type { ClickSound } from '@evenhand/core/sound';
import type { Candidate, DrumKind, Loudness, Stroke } from '@evenhand/core/stroke';
import type { ClickLatency } from '@evenhand/core/take';
import type { ClickVoice } from '../audio/click.ts';
import type { TakeMeta } from '../store/take-rows.ts';

export type { TakeMeta, TakeSpan };

/** A take to be opened. */
export interface TakeAsked extends TakeMeta {
  /** First frame that is no longer part of it, where that is known already: it holds nothing beyond, however late it is closed. */
  readonly toFrame?: number;
}

/** A take heard to its end. */
export interface HeardTake {
  readonly takeId: string;
  readonly sampleRateHz: number;
  readonly durationSec: number;
  readonly strokes: readonly Stroke[];
  /** Down to the floor of what could be a stroke: what `measureTake` matches. */
  readonly candidates: readonly Candidate[];
  /** How loud it was at any moment, for `measureTake` too. */
  readonly loudness?: Loudness;
  /** From a click leaving the context to its sound arriving in the take; absent when that is not known. */
  readonly latencySec?: number;
}

/** The clicks of a take as they were scheduled. */
export interface ToldClicks {
  /** Seconds from its first frame. */
  readonly clicksSec: readonly number[];
  /** How each sounded, in the same order; without it all are beats. */
  readonly clickVoices?: readonly ClickVoice[];
  /** What they sounded like, all of a take alike; unless said, the usual sound. */
  readonly clickSound?: ClickSound;
}

/** What a take is held against. */
export interface MeasureRequest {
  readonly takeId: string;
  readonly cycle: ExpectedCycle;
  readonly tempoBpm: number;
  /** Seconds in the take at which its click sounded, when known. */
  readonly clicksSec?: readonly number[];
  /** The parts of the take in which the exercise was to be played (rounds), in order; default all of it. */
  readonly spans?: readonly TakeSpan[];
  /** What is meant beside evenness, and main strokes of the fill, from 0. */
  readonly shapes?: readonly Shape[];
  readonly fill?: readonly number[];
}

/** One round of a take that goes on. */
export interface GlanceRequest extends MeasureRequest {
  readonly spans: readonly [TakeSpan];
  /** The clicks of the take so far as they were scheduled, to take out what is heard of them. */
  readonly sounded: ToldClicks;
}

export interface MeasuredTake {
  readonly measurement: Measurement;
  readonly findings: readonly Finding[];
}

/** A stroke heard while recording, not yet final. */
export interface ProvisionalStroke {
  readonly takeId: string;
  /** Frame of the audio context. */
  readonly frame: number;
  readonly levelDb: number;
  readonly drum: DrumKind;
}

/** How loud the microphone is, about 20 times a second. Full scale is 1. */
export interface Meter {
  readonly frame: number;
  readonly peak: number;
  readonly rms: number;
}

/** What packing came to. */
export interface Packed {
  /** The take that was packed; null when there was none, or it could not be. */
  readonly takeId: string | null;
  /** There are others. */
  readonly more: boolean;
}

/** Page to Worker, each answered by a `Reply` of the same request id. */
export interface Requests {
  readonly openTake: { readonly ask: TakeAsked; readonly answer: true };
  readonly moveTakeEnd: { readonly ask: { readonly takeId: string; readonly toFrame: number }; readonly answer: true };
  /** Seconds of clicks known only afterwards may be told with `clicksSec`. `toFrame`: first frame that is no longer part of it. */
  readonly closeTake: {
    readonly ask: { readonly takeId: string; readonly toFrame: number } & ToldClicks;
    readonly answer: HeardTake;
  };
  readonly glanceTake: { readonly ask: GlanceRequest; readonly answer: MeasuredTake };
  readonly dropTake: { readonly ask: { readonly takeId: string }; readonly answer: true };
  readonly measureTake: { readonly ask: MeasureRequest; readonly answer: MeasuredTake };
  readonly hearFile: { readonly ask: FileToHear; readonly answer: HeardTake };
  /** Packs one take that is over into FLAC; to be asked only while nothing is played or heard. */
  readonly packTake: { readonly ask: Record<string, never>; readonly answer: Packed };
  /** Clicks already scheduled, found again in the microphone's sound from `fromFrame` up to `toFrame`. */
  readonly measureLoop: {
    readonly ask: {
      readonly clicks: readonly { readonly frame: number; readonly voice: ClickVoice }[];
      readonly clickSound?: ClickSound;
      readonly sampleRateHz: number;
      readonly fromFrame: number;
      readonly toFrame: number;
    };
    readonly answer: ClickLatency;
  };
  /** From now on counts of stick clicks are told, or no more. */
  readonly listenForSticks: { readonly ask: { readonly on: boolean; readonly sampleRateHz: number }; readonly answer: true };
  readonly recoverTakes: { readonly ask: Record<string, never>; readonly answer: readonly HeardTake[] };
}

/** A file as bytes (WAV, AIFF or FLAC: read as the command line reads it), or as samples the browser decoded. */
export type FileToHear =
  | { readonly takeId: string; readonly bytes: Uint8Array<ArrayBuffer> }
  | { readonly takeId: string; readonly samples: Float32Array<ArrayBuffer>; readonly sampleRateHz: number };

export type RequestName = keyof Requests;

export type ToWorker =
  | { readonly type: 'start'; readonly storeName: string }
  | { readonly type: 'input'; readonly port: MessagePort }
  | {
      [Name in RequestName]: { readonly type: 'request'; readonly requestId: number; readonly name: Name; readonly ask: Requests[Name]['ask'] };
    }[RequestName];

export type FromWorker =
  | { readonly type: 'reply'; readonly requestId: number; readonly reading: Reading<unknown, Problem> }
  | { readonly type: 'stroke'; readonly stroke: ProvisionalStroke }
  | { readonly type: 'meter'; readonly meter: Meter }
  | { readonly type: 'sticks'; readonly counted: StickCount }
  | { readonly type: 'problem'; readonly problem: Problem };
