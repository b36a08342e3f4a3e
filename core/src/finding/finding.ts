/** A measured statement about strokes, with how much stands behind it. */

import type { Statement } from '../problem.ts';
import type { Limb } from '../sticking/index.ts';

/** First version: one place, one pair, or nothing that stands out. */
export type Cause = 'place' | 'pair' | 'none';

/** Two neighbouring strokes of one limb are uneven. Strokes count from 0. */
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

/** One stroke of the cycle is off. */
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

export type FindingStatement =
  | Statement<'pair-uneven', PairParams>
  | Statement<'place-off', PlaceParams>
  | Statement<'nothing-stands-out', { readonly cycleCount: number }>
  | Statement<'too-little-to-tell', { readonly cycleCount: number; readonly wishedCount: number }>
  | Statement<'sticking-in-doubt', Record<string, never>>;

/** What every finding carries beside its statement. */
export interface FindingWeight {
  readonly cause: Cause;
  /** Main strokes concerned, by index from 0. */
  readonly indices: readonly number[];
  /** How much of what is known speaks for it, 0 to 1; weights of all findings of a take sum to at most 1. */
  readonly weight: number;
}

export type Finding = FindingStatement & FindingWeight;
