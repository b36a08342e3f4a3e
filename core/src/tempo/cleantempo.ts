/** The tempo at which 85 % of runs are clean, as a median with a 90 % interval, or an honest "too little yet". */
import { daysBetween } from '../day.ts';
import type { Statement } from '../problem.ts';
import { logLikelihood, type OddsCurve, type Trials } from './belief.ts';
import type { TempoResult } from './nexttempo.ts';
import { CLEAN_TEMPO_GRID, FEWEST_RUNS, HALF_LIFE_DAYS, LAPSE_SHARE, SLOPES, TARGET_SHARE, WIDEST_RATIO, WORD_WEIGHT } from './parameters.ts';

/** A result with what decides how much it counts. */
export interface WeighedResult extends TempoResult {
  /** Civil day; results without one count in full. */
  readonly day?: string;
  /** False when it is the player's word and nothing was heard; default true. */
  readonly byEar?: boolean;
}

/** A clean tempo, in beats per minute, not rounded. */
export interface CleanTempo {
  readonly known: true;
  readonly median: number;
  readonly low90: number;
  readonly high90: number;
  /** Runs it rests on. */
  readonly runs: number;
}

/** Why no clean tempo can be told yet. */
export type TooLittle =
  | Statement<'clean-tempo-few-runs', { readonly runs: number; readonly needed: number }>
  | Statement<'clean-tempo-all-clean', { readonly fastestBpm: number }>
  | Statement<'clean-tempo-none-clean', { readonly slowestBpm: number }>
  | Statement<'clean-tempo-wide', { readonly lowBpm: number; readonly highBpm: number }>;

export type CleanTempoEstimate = CleanTempo | { readonly known: false; readonly why: TooLittle };

/**
 * Clean tempo of one exercise.
 *
 * Bayesian on a grid: the 85 % tempo flat on log tempo, the slope among six, a fixed lapse. The player's word counts half, and a result
 * counts half as much with every week, because a player learns; that makes the interval wider, not narrower.
 * @param results of one exercise, in any order.
 * @param today the day it is told for; needed to let results age. Later results are left out.
 * @source [Watson2017] grid of threshold and slope; [Fruend2011] why old trials must not count in full.
 */
export function cleanTempo(results: readonly WeighedResult[], today?: string): CleanTempoEstimate {
  const counted = results.filter(({ day, runs }) => runs > 0 && (today === undefined || day === undefined || day <= today));
  const doubt = tooLittle(counted);
  if (doubt) return { known: false, why: doubt };
  const weights = marginal(counted.map((result) => trialsOf(result, today)));
  const [low90, median, high90] = [0.05, 0.5, 0.95].map((share) => Math.exp(quantileOf(weights, share))) as [number, number, number];
  if (high90 / low90 > WIDEST_RATIO) return { known: false, why: { code: 'clean-tempo-wide', params: { lowBpm: low90, highBpm: high90 } } };
  return { known: true, median, low90, high90, runs: sumOf(counted, ({ runs }) => runs) };
}

function tooLittle(results: readonly WeighedResult[]): TooLittle | null {
  const runs = sumOf(results, (result) => result.runs);
  const clean = sumOf(results, (result) => result.clean);
  const tempi = results.map(({ tempoBpm }) => tempoBpm);
  if (runs < FEWEST_RUNS) return { code: 'clean-tempo-few-runs', params: { runs, needed: FEWEST_RUNS } };
  if (clean === runs) return { code: 'clean-tempo-all-clean', params: { fastestBpm: Math.max(...tempi) } };
  if (clean === 0) return { code: 'clean-tempo-none-clean', params: { slowestBpm: Math.min(...tempi) } };
  return null;
}

/** A result as trials on log tempo, counting less with age and when it is the player's word. */
function trialsOf({ tempoBpm, clean, runs, day, byEar = true }: WeighedResult, today: string | undefined): Trials {
  const age = day !== undefined && today !== undefined ? daysBetween(day, today) : 0;
  const weight = (byEar ? 1 : WORD_WEIGHT) * 0.5 ** (age / HALF_LIFE_DAYS);
  return { x: Math.log(tempoBpm), clean: clean * weight, runs: runs * weight };
}

/** Weight of each tempo of the grid, whatever the slope is; they sum to 1. */
function marginal(trials: readonly Trials[]): readonly number[] {
  const logs = GRID.map((x) => SLOPES.map((slope) => logLikelihood(trials, curveThrough(x, slope))));
  const highest = Math.max(...logs.flat());
  const sums = logs.map((row) => sumOf(row, (log) => Math.exp(log - highest)));
  const whole = sumOf(sums, (weight) => weight);
  return sums.map((weight) => weight / whole);
}

/** The curve whose odds are 85 % at `x`. */
const curveThrough = (x: number, slope: number): OddsCurve => ({
  threshold: x + slope * Math.log(TARGET_SHARE / (1 - LAPSE_SHARE - TARGET_SHARE)),
  slope,
  lapse: LAPSE_SHARE,
});

/** Log tempi: every one percent from the slowest to the fastest. */
const GRID: readonly number[] = Array.from(
  { length: 1 + Math.ceil(Math.log(CLEAN_TEMPO_GRID.fastestBpm / CLEAN_TEMPO_GRID.slowestBpm) / Math.log1p(CLEAN_TEMPO_GRID.stepShare)) },
  (_, k) => Math.log(CLEAN_TEMPO_GRID.slowestBpm) + k * Math.log1p(CLEAN_TEMPO_GRID.stepShare),
);

/** Log tempo below which the share of the weight lies, the weight of each step spread evenly around it. */
function quantileOf(weights: readonly number[], share: number): number {
  let below = 0;
  for (const [k, weight] of weights.entries()) {
    if (below + weight >= share) return GRID[k]! + ((share - below) / weight - 0.5) * Math.log1p(CLEAN_TEMPO_GRID.stepShare);
    below += weight;
  }
  return GRID.at(-1)!;
}

const sumOf = <Item>(items: readonly Item[], of: (item: Item) => number): number => items.reduce((sum, item) => sum + of(item), 0);
