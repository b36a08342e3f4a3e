/** The falling curve that fits counted runs best, for drawing beside them; and a mean that needs no curve. */
import { cleanOdds, type OddsCurve, type Trials } from './belief.ts';

/** Newton steps, and when they are small enough. */
const STEPS = 60;
const SMALL = 1e-10;

/**
 * Maximum-likelihood falling logistic without lapse, by Newton's method on its two linear coefficients, begun at the Spearman–Kärber mean.
 * @param trials at two places at least, in any order.
 * @returns null where runs do not fall off with `x`, or do so from one place to the next without any overlap: then no curve fits best.
 * @source [Watson2017] the falling form; the fit is the usual one.
 */
export function fitCurve(trials: readonly Trials[]): OddsCurve | null {
  const counted = trials.filter(({ runs }) => runs > 0);
  const middle = spearmanKaerber(counted);
  const spread = Math.max(...counted.map(({ x }) => x)) - Math.min(...counted.map(({ x }) => x));
  if (middle === null || !(spread > 0)) return null;
  // Odds are 1 / (1 + e^(intercept + rise·(x − middle))).
  let [intercept, rise] = [0, 4 / spread];
  for (let step = 0; step < STEPS; step++) {
    const moved = newton(counted, middle, { intercept, rise });
    if (!moved) return null;
    const change = Math.abs(moved.intercept - intercept) + Math.abs((moved.rise - rise) * spread);
    [intercept, rise] = [moved.intercept, moved.rise];
    if (change < SMALL) break;
  }
  const slope = 1 / rise;
  return rise > 0 && slope > spread / 1000 ? { threshold: middle - intercept * slope, slope, lapse: 0 } : null;
}

interface Line {
  readonly intercept: number;
  readonly rise: number;
}

/** One step uphill; null where the hill is flat. */
function newton(trials: readonly Trials[], middle: number, { intercept, rise }: Line): Line | null {
  const sums = { g0: 0, g1: 0, h00: 0, h01: 0, h11: 0 };
  for (const { x, clean, runs } of trials) {
    const d = x - middle;
    const odds = cleanOdds(x, { threshold: middle - intercept / rise, slope: 1 / rise, lapse: 0 });
    const [miss, weight] = [runs * odds - clean, runs * odds * (1 - odds)];
    sums.g0 += miss;
    sums.g1 += miss * d;
    sums.h00 += weight;
    sums.h01 += weight * d;
    sums.h11 += weight * d * d;
  }
  const { g0, g1, h00, h01, h11 } = sums;
  const determinant = h00 * h11 - h01 * h01;
  if (!(determinant > 1e-12)) return null;
  return { intercept: intercept + (h11 * g0 - h01 * g1) / determinant, rise: rise + (h00 * g1 - h01 * g0) / determinant };
}

/**
 * Mean of the places at which clean runs stop, by Spearman and Kärber: no curve is assumed, each step between two places counts by how much
 * cleaner the slower one is. The places beyond both ends are taken to be all clean and all not, one step further.
 * @returns null with fewer than two places.
 * @source [Watson2017] as the usual estimate without a model; the formula from memory.
 */
export function spearmanKaerber(trials: readonly Trials[]): number | null {
  const sorted = [...trials].sort((a, b) => a.x - b.x);
  const [first, second] = sorted;
  const [last, beforeLast] = [sorted.at(-1), sorted.at(-2)];
  if (!first || !second || !last || !beforeLast) return null;
  const places = [
    { x: 2 * first.x - second.x, share: 1 },
    ...sorted.map(({ x, clean, runs }) => ({ x, share: clean / runs })),
    { x: 2 * last.x - beforeLast.x, share: 0 },
  ];
  return places.slice(1).reduce((sum, { x, share }, i) => sum + ((places[i]!.share - share) * (x + places[i]!.x)) / 2, 0);
}
