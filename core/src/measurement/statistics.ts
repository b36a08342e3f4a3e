/** Summaries of small samples: means, weighted middles and proportions, with their intervals. Plain quantiles are `../quantiles.ts`. */

/** Arithmetic mean; NaN of nothing. */
export const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

/**
 * Middle value where some count more than others: the value at half the weight, each value standing at the middle of its own,
 * linear between neighbours. With equal weights it is the median. Values of weight 0 or less do not count; NaN of nothing.
 */
export function weightedMedian(values: readonly { readonly value: number; readonly weight: number }[]): number {
  const sorted = values.filter(({ weight }) => weight > 0).sort((a, b) => a.value - b.value);
  const half = sorted.reduce((sum, { weight }) => sum + weight, 0) / 2;
  let before = 0;
  let last = { value: Number.NaN, at: Number.NaN };
  for (const { value, weight } of sorted) {
    const at = before + weight / 2;
    if (at >= half) return last.at < half && at > half ? last.value + ((value - last.value) * (half - last.at)) / (at - last.at) : value;
    before += weight;
    last = { value, at };
  }
  return last.value;
}

/** Sample standard deviation (n − 1); NaN of fewer than two values. */
export function standardDeviation(values: readonly number[]): number {
  const centre = mean(values);
  return Math.sqrt(values.reduce((sum, value) => sum + (value - centre) ** 2, 0) / (values.length - 1));
}

/** An interval with both ends included. */
export interface Interval {
  readonly low: number;
  readonly high: number;
}

/**
 * 95 % interval of the median from order statistics: it rests on no distribution, and is drawn in from the next wider
 * pair of ranks so that it holds 95 % and not up to 98 as whole ranks would.
 * Null of fewer than six values, which cannot give 95 %.
 * @source [HettmanspergerSheather1986]
 */
export function medianInterval(values: readonly number[]): Interval | null {
  const count = values.length;
  const { rank, towardsNext } = medianRank(count);
  if (rank === 0) return null;
  const sorted = Float64Array.from(values).sort();
  const between = (from: number, to: number) => (1 - towardsNext) * sorted[from]! + towardsNext * sorted[to]!;
  return { low: between(rank - 1, rank), high: between(count - rank, count - rank - 1) };
}

interface MedianRank {
  /** The interval from this smallest to this largest value covers at least 95 %; 0 if none does. */
  readonly rank: number;
  /** How far its ends lie from there towards the next rank, 0 to 1. */
  readonly towardsNext: number;
}

function medianRank(count: number): MedianRank {
  if (count > 400) {
    const exact = (count + 1 - 1.959964 * Math.sqrt(count)) / 2;
    return { rank: Math.floor(exact), towardsNext: exact - Math.floor(exact) };
  }
  let odds = 0.5 ** count;
  let below = odds;
  let rank = 0;
  let belowLast = 0;
  while (below <= 0.025) {
    rank += 1;
    belowLast = below;
    odds *= (count - rank + 1) / rank;
    below += odds;
  }
  if (rank === 0) return { rank, towardsNext: 0 };
  const share = (0.025 - belowLast) / (below - belowLast);
  return { rank, towardsNext: ((count - rank) * share) / (rank + (count - 2 * rank) * share) };
}

/**
 * 95 % interval of a proportion after Wilson, honest near 0 and 1. Of no trials: 0 to 1.
 * @source [Wilson1927]
 */
export function wilson(successes: number, trials: number): Interval {
  if (trials === 0) return { low: 0, high: 1 };
  const z2 = 1.959964 ** 2;
  const share = successes / trials;
  const centre = share + z2 / (2 * trials);
  const half = Math.sqrt(z2 * ((share * (1 - share)) / trials + z2 / (4 * trials * trials)));
  const whole = 1 + z2 / trials;
  return { low: Math.max(0, (centre - half) / whole), high: Math.min(1, (centre + half) / whole) };
}
