/** A take held against what was to be played: the shape of every figure that findings and screens use. */
import type { Problem } from '../problem.ts';
import type { Limb } from '../sticking/index.ts';

/** One beat of the tracked grid. */
export interface GridBeat {
  readonly beat: number;
  readonly sec: number;
}

export type StrokeStatus = 'played' | 'missed' | 'notAudible';

/** A grace stroke found before its main stroke. */
export interface MeasuredGrace {
  readonly playedSec: number;
  readonly levelDb: number;
}

/** One expected stroke and what became of it. `errorMs` is played − expected, negative is early. */
export interface MeasuredStroke {
  readonly cycle: number;
  readonly index: number;
  readonly limb: Limb;
  readonly status: StrokeStatus;
  readonly expectedSec: number;
  readonly playedSec: number | null;
  readonly errorMs: number | null;
  readonly levelDb: number | null;
  /** Of a played stroke, that its time is within 5 ms; of another, how sure the status is. 0 to 1. */
  readonly confidence: number;
  readonly graces: readonly MeasuredGrace[];
}

/** An onset that belongs to no expected stroke. */
export interface ExtraStroke {
  readonly timeSec: number;
  readonly levelDb: number;
}

/** One place of the sticking over all cycles; `Low` and `High` bound 95 % intervals. Null figures: nothing usable was heard. */
export interface Place {
  readonly index: number;
  readonly limb: Limb;
  /** Strokes that the timing figures rest on. */
  readonly count: number;
  /** The timing figures rest on strokes of low confidence, because there were too few others: to look at, not to judge by. They have no interval, and the bias is drawn towards the grid. */
  readonly unsure: boolean;
  readonly biasMs: number | null;
  readonly biasLowMs: number | null;
  readonly biasHighMs: number | null;
  readonly spreadMs: number | null;
  readonly levelDb: number | null;
  readonly missed: number;
  readonly notAudible: number;
}

/** Two neighbouring strokes of one limb: the space between them and the step in volume from first to second. */
export interface Pair {
  readonly first: number;
  readonly second: number;
  readonly limb: Limb;
  readonly gapMs: number | null;
  /** Gap over the gap written: 1 is even, below 1 too close. */
  readonly gapShare: number | null;
  readonly gapLow: number | null;
  readonly gapHigh: number | null;
  readonly levelStepDb: number | null;
  readonly extraBounces: number;
  /** Like a place's. */
  readonly unsure: boolean;
}

export interface Measurement {
  /** The tempo that was told. */
  readonly tempoBpm: number;
  /** The tempo that was heard, as the median over the grid. */
  readonly trackedBpm: number;
  /** How far the strokes lie from the click as a whole, played − click, each place counting as often as it was heard; null when no click is known. Errors are told less it. */
  readonly offsetMs: number | null;
  readonly grid: readonly GridBeat[];
  readonly strokes: readonly MeasuredStroke[];
  readonly extra: readonly ExtraStroke[];
  readonly places: readonly Place[];
  readonly pairs: readonly Pair[];
}

/** Why a measurement is not to be trusted, or cannot be given. */
export type MeasurementProblem =
  | Problem<'nothing-to-match', { readonly strokeCount: number }>
  | Problem<'tempo-not-found', { readonly tempoBpm: number }>
  | Problem<'tempo-far-from-told', { readonly tempoBpm: number; readonly trackedBpm: number }>
  | Problem<'sticking-does-not-fit', { readonly matchedShare: number; readonly extraShare: number }>
  | Problem<'sticking-drums-elsewhere', Record<string, never>>
  | Problem<'sticking-repeats-otherwise', { readonly slotCount: number }>
  | Problem<'too-few-cycles', { readonly cycleCount: number }>;
