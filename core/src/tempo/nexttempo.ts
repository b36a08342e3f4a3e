/** The next tempo, from how many runs were clean at the present one. */
import { wilson } from '../measurement/index.ts';
import type { Statement } from '../problem.ts';
import {
  LARGEST_FALL_SHARE,
  MORE_TOLD,
  SAME_TEMPO_SHARE,
  SMALLEST_STEP_SHARE,
  STEP_SHARE,
  SURE_SHARE,
  TARGET_SHARE,
  WORD_RUNS,
} from './parameters.ts';
import { stepRatio } from './staircase.ts';

/** What one round or take gave. */
export interface TempoResult {
  readonly tempoBpm: number;
  /** By the player's word: rounds, and how many of them were had. */
  readonly runs: number;
  readonly clean: number;
  /** False when it is the player's word and nothing was heard; default true. */
  readonly byEar?: boolean;
}

interface Counted {
  readonly tempoBpm: number;
  readonly runs: number;
  readonly clean: number;
  /** How many of the runs are rounds by the player's word. */
  readonly words: number;
  readonly [key: string]: number;
}

/** Why the tempo is what it is. */
export type TempoReason =
  | Statement<'tempo-no-runs', { readonly tempoBpm: number }>
  | Statement<'tempo-up', Counted>
  | Statement<'tempo-stay', Counted>
  | Statement<'tempo-stay-few', Counted & { readonly more: number }>
  | Statement<'tempo-down', Counted>
  | Statement<'tempo-capped', Counted & { readonly capBpm: number }>;

export interface NextTempo {
  readonly nextTempoBpm: number;
  readonly reason: TempoReason;
}

/**
 * The tempo to go on with: weighted up and down so that 85 % of runs come out clean, never up on thin evidence. Of rounds by the player's word each
 * counts as several runs for going up, and as one for going down.
 * @param results so far, in any order; those within 1.5 % of the present tempo are counted.
 * @param tempoBpm the present tempo.
 * @param options `capBpm` a teacher's word: never faster than this.
 * @returns a whole number of beats per minute, and why; the present tempo unchanged when it stays. `words`: so many of the runs are rounds by the
 *   player's word. `more`: after so many more, all clean (all had, when the last were words), it goes up; 0 where they are too many to wait for.
 */
export function nextTempo(results: readonly TempoResult[], tempoBpm: number, { capBpm }: { readonly capBpm?: number | undefined } = {}): NextTempo {
  const next = byResults(results, tempoBpm);
  if (capBpm === undefined || next.nextTempoBpm <= capBpm) return next;
  const { runs, clean, words } = { runs: 0, clean: 0, words: 0, ...next.reason.params };
  return { nextTempoBpm: Math.floor(capBpm), reason: { code: 'tempo-capped', params: { tempoBpm, runs, clean, words, capBpm } } };
}

function byResults(results: readonly TempoResult[], tempoBpm: number): NextTempo {
  const here = results.filter((result) => Math.abs(result.tempoBpm / tempoBpm - 1) <= SAME_TEMPO_SHARE);
  const [all, said] = [sumOf(here), sumOf(here.filter(({ byEar }) => byEar === false))];
  const { runs, clean } = all;
  if (runs === 0) return { nextTempoBpm: tempoBpm, reason: { code: 'tempo-no-runs', params: { tempoBpm } } };
  const params = { tempoBpm, runs, clean, words: said.runs };
  const worth = { runs: runs + (WORD_RUNS - 1) * said.runs, clean: clean + (WORD_RUNS - 1) * said.clean };
  const stepped = tempoBpm * (1 + stepShare(clean, runs));
  if (isSure(worth)) return { nextTempoBpm: Math.ceil(stepped), reason: { code: 'tempo-up', params } };
  if (wilson(clean, runs).high < TARGET_SHARE) return { nextTempoBpm: Math.floor(stepped), reason: { code: 'tempo-down', params } };
  if (clean / runs <= TARGET_SHARE) return { nextTempoBpm: tempoBpm, reason: { code: 'tempo-stay', params } };
  const more = moreUntilSure(worth, here.at(-1)!.byEar === false ? WORD_RUNS : 1);
  return { nextTempoBpm: tempoBpm, reason: { code: 'tempo-stay-few', params: { ...params, more } } };
}

type Sum = Pick<TempoResult, 'runs' | 'clean'>;

const sumOf = (results: readonly Sum[]): Sum => ({
  runs: results.reduce((sum, { runs }) => sum + runs, 0),
  clean: results.reduce((sum, { clean }) => sum + clean, 0),
});

/** Whether so many clean runs are enough to go up on. */
const isSure = ({ clean, runs }: Sum): boolean => wilson(clean, runs).low >= SURE_SHARE && clean / runs > TARGET_SHARE;

/** How many more, all clean and each worth so many runs, are enough; 0 where they are too many to be told. */
function moreUntilSure({ clean, runs }: Sum, each: number): number {
  const counts = Array.from({ length: MORE_TOLD }, (_, k) => k + 1);
  return counts.find((count) => isSure({ clean: clean + count * each, runs: runs + count * each })) ?? 0;
}

/** Mean of the staircase's steps over all runs, at least what a player notices. */
function stepShare(clean: number, runs: number): number {
  const step = (STEP_SHARE * (clean - stepRatio(TARGET_SHARE) * (runs - clean))) / runs;
  return step > 0 ? Math.max(SMALLEST_STEP_SHARE, step) : Math.max(-LARGEST_FALL_SHARE, Math.min(-SMALLEST_STEP_SHARE, step));
}
