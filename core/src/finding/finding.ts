/** A measured statement about strokes, with how much stands behind it. */

import type { Statement } from '../problem.ts';
import type { Limb } from '../sticking/index.ts';

/** What may be behind a finding. `pair` is only found in diaries of the first version. */
export type Cause =
  | 'place'
  | 'pair'
  | 'second-of-double'
  | 'first-of-double'
  | 'limb'
  | 'after-limb'
  | 'after-move'
  | 'into-accent'
  | 'out-of-accent'
  | 'accent'
  | 'grace'
  | 'together'
  | 'bounce'
  | 'bar-place'
  | 'fill'
  | 'tiring'
  | 'rushing'
  | 'none';

/**
 * What a player may want beside evenness: the second of doubles leaning into the beat, the first accented, late off-beats,
 * a limb or the accents behind the rest, soft strokes between loud ones without their being written.
 */
export const SHAPES = ['leaning', 'first-accented', 'swing', 'laid-back', 'ghosted'] as const;
export type Shape = (typeof SHAPES)[number];

/** Two neighbouring strokes of one limb are uneven, as diaries of the first version have it. Strokes count from 0. */
export interface PairParams {
  readonly first: number;
  readonly second: number;
  readonly limb: Limb;
  /** The limb plays nothing else in the cycle, so that "the second kick" names it. */
  readonly only: boolean;
  readonly gap: 'close' | 'wide' | 'even';
  /** Which of the two lies further off its written place. */
  readonly moved: 'first' | 'second';
  readonly step: 'softer' | 'louder' | 'even';
  /** How often the first and the second were missed. */
  readonly firstMissed: number;
  readonly secondMissed: number;
  readonly bounces: number;
  readonly gapMs: number;
  readonly gapShare: number;
  readonly gapLow: number;
  readonly gapHigh: number;
  readonly levelStepDb: number;
  readonly count: number;
  readonly [key: string]: string | number | boolean;
}

/** One stroke of the cycle is off, as diaries of the first version have it. */
export interface PlaceParams {
  readonly index: number;
  readonly limb: Limb;
  /** The limb plays nothing else in the cycle. */
  readonly only: boolean;
  readonly time: 'early' | 'late' | 'even';
  readonly volume: 'softer' | 'louder' | 'even';
  readonly missed: number;
  readonly biasMs: number;
  readonly biasLowMs: number;
  readonly biasHighMs: number;
  /** Against the other strokes of its drum that are written as loud. */
  readonly levelStepDb: number;
  readonly count: number;
  readonly [key: string]: string | number | boolean;
}

/** What a cause is called: everything that `words` needs to name it. */
export interface CauseName {
  /** The cause and whom it concerns: `limb:K`, `place:5`, `after:K>R`, `second-of-double:hands`. */
  readonly what: string;
  /** The limb of all strokes touched; '' when there are several. */
  readonly limb: Limb | '';
  /** Of one stroke only: which it is, from 0, and which of a double it is with `partner`; −1 and '' otherwise. */
  readonly index: number;
  readonly partner: number;
  readonly ofDouble: 'first' | 'second' | '';
  /** The limb plays nothing else in the cycle than this stroke, or than this double. */
  readonly only: boolean;
  readonly [key: string]: string | number | boolean | readonly string[];
}

/** A cause, and how its strokes differ. Times in ms, negative is early; volumes in dB against strokes written alike. */
export interface CauseParams extends CauseName {
  readonly time: 'early' | 'late' | 'even';
  readonly volume: 'softer' | 'louder' | 'even';
  readonly effectMs: number;
  readonly effectLowMs: number;
  readonly effectHighMs: number;
  readonly effectDb: number;
  readonly effectLowDb: number;
  readonly effectHighDb: number;
  /** How often strokes went missing, were followed by a bounce too many, came apart; of how many. */
  readonly missed: number;
  readonly bounced: number;
  readonly apart: number;
  readonly strokeCount: number;
  /** The only finding: all else is even. */
  readonly alone: boolean;
}

/** Strokes that were heard too seldom to be judged. */
export interface NotHeardParams {
  /** Which, from 0, ascending, and their limbs. */
  readonly indices: readonly number[];
  readonly limbs: readonly string[];
  /** How often they were heard together, of how many times. */
  readonly heardCount: number;
  readonly strokeCount: number;
  /** What is known of all other strokes: nothing stands out, something is told beside this, or too little. */
  readonly rest: 'even' | 'told' | 'unknown';
  readonly [key: string]: string | number | readonly number[] | readonly string[];
}

export type FindingStatement =
  | Statement<'cause-fits', CauseParams>
  | Statement<'pair-uneven', PairParams>
  | Statement<'place-off', PlaceParams>
  | Statement<'nothing-stands-out', { readonly cycleCount: number }>
  | Statement<'strokes-not-heard', NotHeardParams>
  | Statement<'too-little-to-tell', { readonly cycleCount: number; readonly wishedCount: number }>
  | Statement<'sticking-in-doubt', Record<string, never>>;

/** A cause that would explain a finding as well (a tie) or less well (a rival). */
export type CauseStatement = Statement<'cause-named', CauseName>;

export type RivalCause = CauseStatement & {
  readonly cause: Cause;
  readonly indices: readonly number[];
  readonly weight: number;
};

/** A likely physical reason, never more than a likely one; and what to look at before a limb is blamed. */
export type FitStatement =
  | Statement<'fits-bounced', Record<string, never>>
  | Statement<'fits-beater', Record<string, never>>
  | Statement<'fits-dead', Record<string, never>>
  | Statement<'fits-low', Record<string, never>>
  | Statement<'fits-loose', Record<string, never>>
  | Statement<'fits-reach', Record<string, never>>
  | Statement<'fits-swing', Record<string, never>>
  | Statement<'ask-gear', { readonly foot: boolean }>;

/** Where in tempo a cause shows. `from`: at `lowBpm` and faster; `below`: at `highBpm` and slower; `between`: a hole between two ways of playing; `everywhere`. */
export interface TempoZone extends CauseParams {
  readonly zone: 'from' | 'below' | 'between' | 'everywhere' | 'scattered';
  readonly lowBpm: number;
  readonly highBpm: number;
  readonly perBeat: number;
}
export type TempoZoneStatement = Statement<'tempo-zone', TempoZone>;

/** What a probe asks the player to do; `kind` is a ProbeKind. */
export type ProbeStatement = Statement<
  'probe-asked',
  { readonly kind: string; readonly sticking: string; readonly tempoBpm: number; readonly perBeat: number }
>;

/** What every finding carries beside its statement. */
export interface FindingWeight {
  readonly cause: Cause;
  /** Main strokes concerned, by index from 0. */
  readonly indices: readonly number[];
  /** How much of what is known speaks for it, 0 to 1; weights of all findings of a take and their rivals sum to at most 1. */
  readonly weight: number;
  /** Causes that touch the same strokes: these takes cannot tell them apart. Absent in diaries of the first version. */
  readonly ties?: readonly CauseStatement[];
  /** Other causes that are not ruled out, likeliest first. */
  readonly rivals?: readonly RivalCause[];
  readonly fits?: readonly FitStatement[];
}

export type Finding = FindingStatement & FindingWeight;
