/** The next tempo, from how many runs were clean at the present one. */
import { wilson } from '../measurement/index.ts';
import type { Statement } from '../problem.ts';
import { LARGEST_FALL_SHARE, SAME_TEMPO_SHARE, SMALLEST_STEP_SHARE, STEP_SHARE, SURE_SHARE, TARGET_SHARE } from './parameters.ts';
import { stepRatio } from './staircase.ts';

/** What one round or take gave. */
export interface TempoResult {
  readonly tempoBpm: number;
  readonly runs: number;
  readonly clean: number;
}

interface Counted {
  readonly tempoBpm: number;
  readonly runs: number;
  readonly clean: number;
  readonly [key: string]: number;
}

/** Why the tempo is what it is. */
export type TempoReason =
  | Statement<'tempo-no-runs', { readonly tempoBpm: number }>
  | Statement<'tempo-up', Counted>
  | Statement<'tempo-stay', Counted>
  | Statement<'tempo-stay-few', Counted>
  | Statement<'tempo-down', Counted>
  | Statement<'tempo-capped', Counted & { readonly capBpm: number }>;

export interface NextTempo {
  readonly nextTempoBpm: number;
  readonly reason: TempoReason;
}

/**
 * The tempo to go on with: weighted up and down so that 85 % of runs come out clean, never up on thin evidence.
 * @param results so far, in any order; those within 1.5 % of the present tempo are counted.
 * @param tempoBpm the present tempo.
 * @param options `capBpm` a teacher's word: never faster than this.
 * @returns a whole number of beats per minute, and why; the present tempo unchanged when it stays.
 */
export function nextTempo(results: readonly TempoResult[], tempoBpm: number, { capBpm }: { readonly capBpm?: number | undefined } = {}): NextTempo {
  const next = byResults(results, tempoBpm);
  if (capBpm === undefined || next.nextTempoBpm <= capBpm) return next;
  const { runs, clean } = { runs: 0, clean: 0, ...next.reason.params };
  return { nextTempoBpm: Math.floor(capBpm), reason: { code: 'tempo-capped', params: { tempoBpm, runs, clean, capBpm } } };
}

function byResults(results: readonly TempoResult[], tempoBpm: number): NextTempo {
  const here = results.filter((result) => Math.abs(result.tempoBpm / tempoBpm - 1) <= SAME_TEMPO_SHARE);
  const runs = here.reduce((sum, result) => sum + result.runs, 0);
  const clean = here.reduce((sum, result) => sum + result.clean, 0);
  if (runs === 0) return { nextTempoBpm: tempoBpm, reason: { code: 'tempo-no-runs', params: { tempoBpm } } };
  const params = { tempoBpm, runs, clean };
  const sure = wilson(clean, runs);
  if (sure.low >= SURE_SHARE && clean / runs > TARGET_SHARE) {
    return { nextTempoBpm: Math.ceil(tempoBpm * (1 + stepShare(clean, runs))), reason: { code: 'tempo-up', params } };
  }
  if (sure.high < TARGET_SHARE) return { nextTempoBpm: Math.floor(tempoBpm * (1 + stepShare(clean, runs))), reason: { code: 'tempo-down', params } };
  return { nextTempoBpm: tempoBpm, reason: { code: clean / runs > TARGET_SHARE ? 'tempo-stay-few' : 'tempo-stay', params } };
}

/** Mean of the staircase's steps over all runs, at least what a player notices. */
function stepShare(clean: number, runs: number): number {
  const step = (STEP_SHARE * (clean - stepRatio(TARGET_SHARE) * (runs - clean))) / runs;
  return step > 0 ? Math.max(SMALLEST_STEP_SHARE, step) : Math.max(-LARGEST_FALL_SHARE, Math.min(-SMALLEST_STEP_SHARE, step));
}
