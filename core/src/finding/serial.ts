/** Serial correlation: how much less a row of strokes tells about a drift than their number says. */
import type { Observed } from './observed.ts';

/** Fewer cycles tell nothing about how one resembles the next. */
const FEWEST = 6;

/**
 * Variance of the means of cycles, a straight line taken away, over what it would be if no stroke resembled another;
 * times (1 + ρ) / (1 − ρ) when a cycle resembles the one before it. At least 1.
 */
export function serialInflation(observed: Observed, firstCycle: number, cycleCount: number): number {
  const rows = cycleMeans(observed, firstCycle, cycleCount);
  if (rows.length < FEWEST) return 1;
  const rest = besideLine(rows);
  const power = rest.reduce((sum, y) => sum + y * y, 0) / (rest.length - 2);
  const expected = rows.reduce((sum, { variance }) => sum + variance, 0) / rows.length;
  const lag = rest.slice(1).reduce((sum, y, i) => sum + y * rest[i]!, 0) / (rest.length - 2);
  const rho = power > 0 ? Math.min(0.9, Math.max(0, lag / power)) : 0;
  return Math.max(1, power / expected) * ((1 + rho) / (1 - rho));
}

interface CycleMean {
  readonly at: number;
  readonly y: number;
  /** Of the mean, if strokes were independent. */
  readonly variance: number;
}

function cycleMeans({ place, cycle, value, means, deviations }: Observed, firstCycle: number, cycleCount: number): CycleMean[] {
  const [sums, squares, counts] = [new Float64Array(cycleCount), new Float64Array(cycleCount), new Float64Array(cycleCount)];
  for (let i = 0; i < value.length; i++) {
    const at = cycle[i]! - firstCycle;
    sums[at]! += value[i]! - means[place[i]!]!;
    squares[at]! += deviations[place[i]!]! ** 2;
    counts[at]! += 1;
  }
  return Array.from(sums, (sum, at) => ({ at, y: sum / counts[at]!, variance: squares[at]! / counts[at]! ** 2 })).filter(({ y }) =>
    Number.isFinite(y),
  );
}

/** What a straight line through the cycles leaves. */
function besideLine(rows: readonly CycleMean[]): number[] {
  const meanOf = (of: (row: CycleMean) => number) => rows.reduce((sum, row) => sum + of(row), 0) / rows.length;
  const [x, y] = [meanOf(({ at }) => at), meanOf((row) => row.y)];
  const slope = meanOf((row) => (row.at - x) * (row.y - y)) / meanOf(({ at }) => (at - x) ** 2);
  return rows.map((row) => row.y - y - slope * (row.at - x));
}
