/** When a tempo will be reached, as a range of days, from how the clean tempo rose so far; or an honest word why that cannot be said. */
import { addDays, daysBetween } from '../day.ts';
import type { Statement } from '../problem.ts';
import { FORECAST } from './parameters.ts';

/** A rise towards a ceiling: ceiling − gap · e^(−rate·day). Value and ceiling in one unit, days from any first day. */
export interface Rise {
  readonly ceiling: number;
  readonly gap: number;
  readonly rate: number;
}

/** Value on a day. @source [Heathcote2000] @example riseAt(14, { ceiling: 140, gap: 60, rate: 0.05 }) // 110.2 */
export const riseAt = (day: number, { ceiling, gap, rate }: Rise): number => ceiling - gap * Math.exp(-rate * day);

/** Day on which a rise reaches a value; infinite when its ceiling is not above it. Below zero when it was there before day 0. */
export const dayReached = (value: number, { ceiling, gap, rate }: Rise): number =>
  ceiling > value && gap > 0 ? Math.log(gap / (ceiling - value)) / rate : Number.POSITIVE_INFINITY;

/** A clean tempo as it was told on a day. */
export interface ToldTempo {
  readonly day: string;
  readonly median: number;
  readonly low90: number;
  readonly high90: number;
}

export type Forecast =
  | Statement<'forecast-between', { readonly goalBpm: number; readonly from: string; readonly to: string }>
  | Statement<'forecast-from', { readonly goalBpm: number; readonly from: string }>
  | Statement<'forecast-there', { readonly goalBpm: number }>
  | Statement<'forecast-not-yet-seen', { readonly goalBpm: number; readonly weeks: number }>
  | Statement<'forecast-too-little', { readonly days: number; readonly needed: number }>;

/**
 * When the tempo wanted will be reached if practice goes on as it did: a 90 % range of days.
 *
 * Every rise on a grid of ceilings and rates is weighed by how well it fits the told tempi on log tempo; the range is that of the days on which
 * those rises get there. A rise that never does counts as later than everything.
 * @param told one a day, ascending; each with its own uncertainty.
 * @param goalBpm in the exercise's own beats.
 * @param today day it is told on, not before the last told.
 */
export function forecast(told: readonly ToldTempo[], goalBpm: number, today: string): Forecast {
  const [first] = told;
  const last = told.at(-1);
  const enough = first && last && told.length >= FORECAST.fewestDays && daysBetween(first.day, last.day) >= FORECAST.fewestSpanDays;
  if (last && last.median >= goalBpm) return { code: 'forecast-there', params: { goalBpm } };
  if (!enough) return { code: 'forecast-too-little', params: { days: told.length, needed: FORECAST.fewestDays } };
  const now = daysBetween(first.day, today);
  const reached = weighedRises(told).map(({ rise, weight }) => ({ weight, day: Math.max(now + 1, dayReached(Math.log(goalBpm), rise)) }));
  reached.sort((a, b) => a.day - b.day);
  const [low, high] = [dayAt(reached, 0.05), dayAt(reached, 0.95)];
  const horizon = now + 7 * FORECAST.horizonWeeks;
  if (low > horizon) return { code: 'forecast-not-yet-seen', params: { goalBpm, weeks: FORECAST.horizonWeeks } };
  const from = addDays(first.day, Math.floor(low));
  return high > horizon
    ? { code: 'forecast-from', params: { goalBpm, from } }
    : { code: 'forecast-between', params: { goalBpm, from, to: addDays(first.day, Math.ceil(high)) } };
}

interface WeighedRise {
  readonly rise: Rise;
  /** Together 1. */
  readonly weight: number;
}

/** Rises through the told tempi; for each ceiling and rate the gap that fits best. */
function weighedRises(told: readonly ToldTempo[]): readonly WeighedRise[] {
  const points = told.map(({ day, median, low90, high90 }) => ({
    day: daysBetween(told[0]!.day, day),
    value: Math.log(median),
    // Tempi told on neighbouring days rest on the same runs, so together they are surer of themselves than they should be.
    sd: FORECAST.sdFactor * Math.max(FORECAST.leastSd, Math.log(high90 / low90) / RANGE_90_SDS),
  }));
  const highest = Math.max(...points.map(({ value }) => value));
  const all = FORECAST.rates.flatMap((rate) =>
    Array.from({ length: FORECAST.ceilings }, (_, k) => {
      const above = FORECAST.ceilingStep * (k + 0.5);
      return fitted(points, { ceiling: highest + above, rate, prior: -above / FORECAST.usualAbove });
    }),
  );
  const best = Math.max(...all.map(({ log }) => log));
  const sum = all.reduce((total, { log }) => total + Math.exp(log - best), 0);
  return all.map(({ rise, log }) => ({ rise, weight: Math.exp(log - best) / sum }));
}

interface Point {
  readonly day: number;
  readonly value: number;
  readonly sd: number;
}

function fitted(points: readonly Point[], { ceiling, rate, prior }: { readonly ceiling: number; readonly rate: number; readonly prior: number }) {
  const shapes = points.map(({ day }) => Math.exp(-rate * day));
  const up = points.reduce((sum, { value, sd }, i) => sum + ((ceiling - value) * shapes[i]!) / sd ** 2, 0);
  const down = points.reduce((sum, { sd }, i) => sum + shapes[i]! ** 2 / sd ** 2, 0);
  const rise: Rise = { ceiling, gap: up / down, rate };
  const misfit = points.reduce((sum, { day, value, sd }) => sum + ((value - riseAt(day, rise)) / sd) ** 2, 0);
  return { rise, log: prior - misfit / 2 };
}

function dayAt(reached: readonly { readonly day: number; readonly weight: number }[], share: number): number {
  let below = 0;
  for (const { day, weight } of reached) {
    below += weight;
    if (below >= share) return day;
  }
  return Number.POSITIVE_INFINITY;
}

/** A 90 % range of a normal distribution in its deviations. @source Φ⁻¹(.95) twice */
const RANGE_90_SDS = 3.289707;
