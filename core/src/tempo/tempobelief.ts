/** What is believed about the clean tempo of one exercise: weights over clean tempo and slope, moved by results, loosened by days. */
import { daysBetween } from '../day.ts';
import { cleanOdds, expectedEntropyBits, type OddsCurve } from './belief.ts';
import type { TempoResult } from './nexttempo.ts';
import { BELIEF_GRID, BLOCK_LIKENESS, CARRIED_SD, DRIFT, LAPSE_SHARE, SLOPES, TARGET_SHARE, WORD_WEIGHT } from './parameters.ts';

/** A result with what decides how much it counts. */
export interface WeighedResult extends TempoResult {
  /** Civil day; results without one count as of one day. */
  readonly day?: string;
  /** How sure the ear was of it, 0 to 1; default 1. */
  readonly confidence?: number;
}

/** What is expected of an exercise before it was played, beats per minute; `sd` in log tempo. */
export interface ExpectedTempo {
  readonly tempoBpm: number;
  readonly sd?: number;
}

/** Weights over a grid of log tempo and slope. */
export interface TempoBelief {
  /** Log tempo of the first column. */
  readonly first: number;
  /** Columns: clean tempi, one `BELIEF_GRID.stepShare` apart. */
  readonly count: number;
  /** `weights[slope * count + column]`, together 1. */
  readonly weights: Float64Array;
}

/**
 * What follows from results about the clean tempo on a day.
 *
 * Day by day: the results of a day move the weights by Bayes' rule, each with what it is worth; between days they spread out, because players
 * learn and forget, the more the longer.
 * @param results of one exercise, in any order, at least one.
 * @param options `today` the day it is told for; later results are left out, and the days since the last result widen it. `expected` from other
 *   exercises; without it all tempi within a factor of `BELIEF_GRID.reach` are alike likely.
 * @source [Watson2017] grid of threshold and slope; [Fruend2011] why old trials must not count in full.
 */
export function believe(
  results: readonly WeighedResult[],
  { today, expected }: { readonly today?: string | undefined; readonly expected?: ExpectedTempo | undefined } = {},
): TempoBelief {
  const known = results.filter(({ runs, day }) => runs > 0 && (today === undefined || day === undefined || day <= today));
  const all = [...new Set(known.map(({ day }) => day))].sort();
  const days = all.slice(-MEMORY_DAYS);
  const counted = known.filter(({ day }) => days.includes(day));
  let belief = startingBelief(counted, expected);
  let before: string | undefined;
  for (const [k, day] of days.entries()) {
    belief = loosened(belief, { from: before, to: day, practised: all.length - days.length + k });
    belief = moved(
      belief,
      counted.filter((result) => result.day === day),
    );
    before = day ?? before;
  }
  return loosened(belief, { from: before, to: today, practised: all.length });
}

/** The belief before anything was played. */
function startingBelief(results: readonly TempoResult[], expected: ExpectedTempo | undefined): TempoBelief {
  const tempi = [...results.map(({ tempoBpm }) => tempoBpm), ...(expected ? [expected.tempoBpm] : [])];
  const first = Math.log(Math.min(...tempi) / BELIEF_GRID.reach);
  const count = 1 + Math.ceil((Math.log(Math.max(...tempi) * BELIEF_GRID.reach) - first) / STEP);
  const sd = expected?.sd ?? CARRIED_SD;
  const middle = expected ? Math.log(expected.tempoBpm) : 0;
  const columns = Array.from({ length: count }, (_, k) => (expected ? Math.exp(-(((first + k * STEP - middle) / sd) ** 2) / 2) : 1));
  const weights = new Float64Array(SLOPES.length * count);
  for (const [s, { weight }] of SLOPES.entries()) for (const [k, column] of columns.entries()) weights[s * count + k] = weight * column;
  return normalised({ first, count, weights });
}

/** The weights after the results of a day. Runs at one tempo on one day are somewhat alike, so many of them count less than as many days. */
function moved(belief: TempoBelief, results: readonly WeighedResult[]): TempoBelief {
  const { first, count } = belief;
  const { weights: before } = belief;
  const logs = new Float64Array(before.length);
  for (const { x, clean, failed } of atTempi(results)) {
    const odds = logOddsAt(x, first, count);
    for (let at = 0; at < logs.length; at++) if (before[at] !== 0) logs[at]! += clean * odds.clean[at]! + failed * odds.failed[at]!;
  }
  let highest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < logs.length; i++) if (before[i]! > 0 && logs[i]! > highest) highest = logs[i]!;
  const weights = new Float64Array(before.length);
  for (let i = 0; i < weights.length; i++) if (before[i]! > 0) weights[i] = before[i]! * Math.exp(logs[i]! - highest);
  return normalised({ ...belief, weights });
}

/** Natural logarithms of the odds that a run at a tempo is clean, and that it is not, by slope and column. */
interface LogOdds {
  readonly clean: Float64Array;
  readonly failed: Float64Array;
}

/** The days of a curve are told by the same few tempi over the same columns: their odds are remembered, so many of them at most. */
const remembered = new Map<string, LogOdds>();
const REMEMBERED = 50;

function logOddsAt(x: number, first: number, count: number): LogOdds {
  const name = `${x} ${first} ${count}`;
  const known = remembered.get(name);
  if (known) return known;
  const odds = { clean: new Float64Array(SLOPES.length * count), failed: new Float64Array(SLOPES.length * count) };
  for (const [s, { slope }] of SLOPES.entries()) {
    for (let k = 0; k < count; k++) {
      const clean = cleanOdds(x, curveThrough(first + k * STEP, slope));
      odds.clean[s * count + k] = Math.log(clean);
      odds.failed[s * count + k] = Math.log(1 - clean);
    }
  }
  if (remembered.size >= REMEMBERED) remembered.clear();
  remembered.set(name, odds);
  return odds;
}

/** What runs at each tempo of a day are worth together, on log tempo. */
function atTempi(results: readonly WeighedResult[]): readonly { readonly x: number; readonly clean: number; readonly failed: number }[] {
  const sums = new Map<number, { clean: number; runs: number }>();
  for (const { tempoBpm, clean, runs, byEar = true, confidence = 1 } of results) {
    const worth = confidence * (byEar ? 1 : WORD_WEIGHT);
    const sum = sums.get(tempoBpm) ?? { clean: 0, runs: 0 };
    sums.set(tempoBpm, { clean: sum.clean + worth * clean, runs: sum.runs + worth * runs });
  }
  return [...sums].map(([tempoBpm, { clean, runs }]) => {
    const share = 1 / (1 + BLOCK_LIKENESS * Math.max(0, runs - 1));
    return { x: Math.log(tempoBpm), clean: share * clean, failed: share * (runs - clean) };
  });
}

/**
 * The weights moved and spread out over the time from one day to another; nothing changes within a day or when days are not known.
 * @param practised days with results so far.
 */
function loosened(
  belief: TempoBelief,
  { from, to, practised }: { from: string | undefined; to: string | undefined; practised: number },
): TempoBelief {
  const days = from === undefined || to === undefined ? 0 : daysBetween(from, to);
  if (days <= 0) return belief;
  const { count } = belief;
  const { up, sd, jumps } = driftOf(days, practised);
  const reach = Math.ceil((3.5 * sd + Math.abs(up)) / STEP);
  const kernel = Array.from({ length: 2 * reach + 1 }, (_, k) => Math.exp(-((((k - reach) * STEP - up) / sd) ** 2) / 2));
  const whole = kernel.reduce((sum, weight) => sum + weight, 0);
  const weights = new Float64Array(belief.weights.length);
  const jumped = new Float64Array(count);
  for (let row = 0; row < SLOPES.length; row++) {
    const before = belief.weights.subarray(row * count, (row + 1) * count);
    spreadEvenly(before, Math.round(DRIFT.jumpReach / STEP), jumped);
    const after = weights.subarray(row * count, (row + 1) * count);
    for (let k = 0; k < count; k++) {
      after[k]! += jumps * jumped[k]!;
      const weight = (before[k]! * (1 - jumps)) / whole;
      if (weight < NEGLIGIBLE) continue;
      for (let j = Math.max(-reach, -k); j <= Math.min(reach, count - 1 - k); j++) after[k + j]! += weight * kernel[j + reach]!;
    }
  }
  return normalised({ ...belief, weights });
}

/** How far the clean tempo moves between two days, how far it strays, and how likely it jumps. */
function driftOf(days: number, practised: number): { readonly up: number; readonly sd: number; readonly jumps: number } {
  return {
    up: (DRIFT.gain * DRIFT.gainDays) / (DRIFT.gainDays + practised) - DRIFT.lossPerDay * Math.min(days, DRIFT.mostLossDays),
    sd: Math.min(DRIFT.mostSd, Math.hypot(DRIFT.nightSd, DRIFT.daySd * Math.sqrt(days))),
    jumps: Math.min(DRIFT.mostJumpShare, DRIFT.jumpShare + DRIFT.jumpSharePerDay * days),
  };
}

/** Puts each weight, spread evenly over `reach` columns to either side, into `spread`. */
function spreadEvenly(weights: Float64Array, reach: number, spread: Float64Array): void {
  const sums = new Float64Array(weights.length + 1);
  for (let k = 0; k < weights.length; k++) sums[k + 1] = sums[k]! + weights[k]!;
  for (let k = 0; k < weights.length; k++)
    spread[k] = (sums[Math.min(weights.length, k + reach + 1)]! - sums[Math.max(0, k - reach)]!) / (2 * reach + 1);
}

/** The weights made to sum to 1, in place. Those that play no part any more are taken out, so that the next day has less to do. */
function normalised(belief: TempoBelief): TempoBelief {
  const { weights } = belief;
  let sum = 0;
  for (let i = 0; i < weights.length; i++) sum += weights[i]!;
  for (let i = 0; i < weights.length; i++) weights[i] = weights[i]! / sum < FORGOTTEN ? 0 : weights[i]! / sum;
  return belief;
}

/** Clean tempo below which the share of the weight lies, beats per minute, the weight of each column spread evenly around it. */
export function tempoBelow(belief: TempoBelief, share: number): number {
  let below = 0;
  for (const [k, weight] of marginal(belief).entries()) {
    if (below + weight >= share && weight > 0) return Math.exp(belief.first + (k + (share - below) / weight - 0.5) * STEP);
    below += weight;
  }
  return Math.exp(belief.first + (belief.count - 1) * STEP);
}

/** Weight of each clean tempo of the grid, whatever the slope is. */
function marginal({ count, weights }: TempoBelief): readonly number[] {
  return Array.from({ length: count }, (_, k) => SLOPES.reduce((sum, _slope, s) => sum + weights[s * count + k]!, 0));
}

/** Odds of a clean run at a tempo by all that is believed. */
export function believedOdds({ first, count, weights }: TempoBelief, tempoBpm: number): number {
  let sum = 0;
  for (const [s, { slope }] of SLOPES.entries())
    for (let k = 0; k < count; k++) sum += weights[s * count + k]! * cleanOdds(Math.log(tempoBpm), curveThrough(first + k * STEP, slope));
  return sum;
}

/**
 * How much uncertainty about the clean tempo a run at each tempo is expected to leave, in bits.
 * @source [KontsevichTyler1999] with the slope summed out, because the clean tempo alone is asked for.
 */
export function bitsLeft({ first, count, weights }: TempoBelief, tempoBpm: number): number {
  const x = Math.log(tempoBpm);
  const columns = Array.from({ length: count }, (_, k) => {
    const column = SLOPES.map((_slope, s) => weights[s * count + k]!);
    return { at: first + k * STEP, column, weight: column.reduce((sum, weight) => sum + weight, 0) };
  }).filter(({ weight }) => weight > NEGLIGIBLE);
  const odds = columns.map(({ at, column, weight }) => {
    const clean = SLOPES.reduce((sum, { slope }, s) => sum + column[s]! * cleanOdds(x, curveThrough(at, slope)), 0);
    return clean / weight;
  });
  return expectedEntropyBits(
    columns.map(({ weight }) => weight),
    odds,
  );
}

/** The curve whose odds are 85 % at `x`. */
export const curveThrough = (x: number, slope: number): OddsCurve => ({
  threshold: x + slope * THRESHOLD_SLOPES,
  slope,
  lapse: LAPSE_SHARE,
});

/** Columns with less weight are not looked at when tempi are compared. */
const NEGLIGIBLE = 1e-7;
/** Weights below this are taken out. */
const FORGOTTEN = 1e-8;
/** Days with results that are looked at, the last ones: what is older is drifted away. */
const MEMORY_DAYS = 15;
const STEP = Math.log1p(BELIEF_GRID.stepShare);
const THRESHOLD_SLOPES = Math.log(TARGET_SHARE / (1 - LAPSE_SHARE - TARGET_SHARE));
