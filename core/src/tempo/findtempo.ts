/** "Find my tempo": the tempi to try, each the one that tells most, until the clean tempo is known or two minutes are over. */
import type { Statement } from '../problem.ts';
import { beatSec } from '../units.ts';
import { FIND } from './parameters.ts';
import { believe, bitsLeft, type ExpectedTempo, type TempoBelief, tempoBelow, type WeighedResult } from './tempobelief.ts';

/** What to play next, or that it is enough. */
export type FindStep =
  | { readonly done: false; readonly tempoBpm: number; readonly runs: number }
  | { readonly done: true; readonly belief: TempoBelief };

/** Why a tempo is where it is after a search: the 90 % range, whole beats per minute. */
export type SearchReason = Statement<'tempo-searched', { readonly lowBpm: number; readonly highBpm: number }>;

export interface FindOptions {
  /** Where the player thinks it is. */
  readonly expected: ExpectedTempo;
  /** Slots per beat. */
  readonly perBeat: number;
  /** Beats of a bar, for the count-in and the time it takes. */
  readonly beatsPerBar: number;
  /** Seconds since the search began, by the clock; unless said, what the bars and the breaths between them take. */
  readonly elapsedSec?: number;
}

/**
 * The next tempo of a search. Each step is one bar of count-in, a bar or more of runs, and a breath.
 * @param results of this search so far, in order.
 * @returns a whole number of beats per minute that would leave least uncertainty; done once the 90 % range is narrow, or time is up.
 * @source [KontsevichTyler1999]
 */
export function findStep(results: readonly WeighedResult[], options: FindOptions): FindStep {
  const belief = believe(results, { expected: options.expected });
  const narrow = tempoBelow(belief, 0.95) / tempoBelow(belief, 0.05) <= FIND.narrowRatio;
  const tempoBpm = tempoThatTellsMost(belief);
  const runs = runsOfStep(options);
  const gone = options.elapsedSec ?? results.reduce((sum, result) => sum + stepSec(result.tempoBpm, options), 0);
  return narrow || gone + stepSec(tempoBpm, options) > FIND.mostSec ? { done: true, belief } : { done: false, tempoBpm, runs };
}

/** Whole tempo within what is believed at which a run leaves least uncertainty. */
export function tempoThatTellsMost(belief: TempoBelief): number {
  const [low, high] = [tempoBelow(belief, FIND.tailShare), tempoBelow(belief, 1 - FIND.tailShare)];
  const step = Math.max(1, (high * FIND.beyond - low) / FIND.candidates);
  const count = 1 + Math.floor((high * FIND.beyond - low) / step);
  const tempi = Array.from({ length: count }, (_, k) => Math.round(low + k * step));
  const left = tempi.map((tempoBpm) => bitsLeft(belief, tempoBpm));
  return tempi[left.indexOf(Math.min(...left))]!;
}

/** Runs of one step: two, or what two bars hold of a slower subdivision. */
const runsOfStep = ({ perBeat, beatsPerBar }: FindOptions): number => Math.max(1, Math.round((perBeat * beatsPerBar * FIND.bars) / 8));

const stepSec = (tempoBpm: number, { beatsPerBar }: FindOptions): number => (1 + FIND.bars) * beatsPerBar * beatSec(tempoBpm) + FIND.breathSec;
