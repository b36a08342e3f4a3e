/** A recording: samples of one channel, the clock they belong to, and what is wrong with them. */
import type { Problem } from '../problem.ts';

/** How a recording's frames relate to the audio context, to civil time and to the click that was heard. */
export interface TakeClock {
  readonly sampleRateHz: number;
  /** Frame of the audio context at which the first sample was taken; 0 for a file. */
  readonly contextFrame0: number;
  /** Milliseconds since 1970 at the first sample; 0 when not known. */
  readonly wallMs0: number;
  /** Time from a click leaving the context to its sound arriving in the take; 0 when not known. */
  readonly latencySec: number;
  readonly latencyFrom: 'loopback' | 'bleed' | 'unknown';
}

/** One recording, mono, full scale at ±1. */
export interface Take {
  readonly samples: Float32Array;
  readonly clock: TakeClock;
}

/** What can be wrong with a recording. `at` is a second in it. */
export type TakeProblem =
  | Problem<'take-not-audio', { readonly looksLike: string }>
  | Problem<'take-unsupported', { readonly encoding: string }>
  | Problem<'take-empty', Record<string, never>>
  | Problem<'take-too-short', { readonly durationSec: number }>
  | Problem<'take-cut-short', { readonly expectedSec: number; readonly foundSec: number }>
  | Problem<'take-damaged', { readonly foundSec: number }>
  | Problem<'take-click-heard', { readonly underDb: number }>
  | Problem<'take-silent', { readonly peakDb: number }>
  | Problem<'take-clipped', { readonly clippedCount: number; readonly strokeShare: number }>
  | Problem<'take-gaps', { readonly gapCount: number; readonly longestSec: number }>;

/** The clock of a recording that came as a file. */
export const fileClock = (sampleRateHz: number): TakeClock => ({ sampleRateHz, contextFrame0: 0, wallMs0: 0, latencySec: 0, latencyFrom: 'unknown' });
