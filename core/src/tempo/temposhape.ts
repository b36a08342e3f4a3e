/** Whether clean runs simply fall off with tempo, or hold only from a tempo on, or have a poor zone between two ways of playing. */
import { daysBetween } from '../day.ts';
import { wilson } from '../measurement/index.ts';
import type { Statement } from '../problem.ts';
import { cleanOdds } from './belief.ts';
import { SHAPE, TARGET_SHARE } from './parameters.ts';
import { curveThrough, type WeighedResult } from './tempobelief.ts';

/** Tempi in beats per minute, not rounded. */
export type TempoShape =
  | { readonly kind: 'falling' }
  /** Slower than this it does not hold either. */
  | { readonly kind: 'lowerLimit'; readonly fromBpm: number }
  /** Clean below and again above, poor between. */
  | { readonly kind: 'hole'; readonly fromBpm: number; readonly toBpm: number };

/** What is said of a shape that is not a simple fall. */
export type ShapeStatement =
  | Statement<'clean-tempo-two-ranges', { readonly fromBpm: number; readonly toBpm: number }>
  | Statement<'clean-tempo-from', { readonly fromBpm: number }>;

/** The word for a shape. */
export const shapeSaid = (shape: Exclude<TempoShape, { readonly kind: 'falling' }>): ShapeStatement =>
  shape.kind === 'hole'
    ? { code: 'clean-tempo-two-ranges', params: { fromBpm: shape.fromBpm, toBpm: shape.toBpm } }
    : { code: 'clean-tempo-from', params: { fromBpm: shape.fromBpm } };

/**
 * The shape that explains results best. Falling unless another is at least `SHAPE.sure` likely, by Bayes' rule over coarse grids.
 * @param results of one exercise, in any order.
 * @param today lets older results count less.
 */
export function tempoShape(results: readonly WeighedResult[], today?: string): TempoShape {
  const trials = trialsOf(results, today);
  if (!anyBetterFaster(trials)) return { kind: 'falling' };
  const xs = trials.map(({ x }) => x);
  const edges = gridOf(Math.min(...xs), Math.max(...xs), SHAPE.edges);
  const tops = gridOf(Math.min(...xs) - 0.2, Math.max(...xs) + 0.2, SHAPE.tops);
  const limits = edges.map((edge) => ({
    edge,
    log: evidence(
      trials,
      tops.filter((top) => top > edge),
      (x) => rising(x, edge),
    ),
  }));
  // A zone has something clean below it: at least the slowest tempo that was played.
  const [, second = Number.POSITIVE_INFINITY] = [...xs].sort((a, b) => a - b);
  const holes = edges.flatMap((from) =>
    from < second
      ? []
      : edges
          .filter((to) => to > from)
          .map((to) => ({
            from,
            to,
            log: evidence(
              trials,
              tops.filter((top) => top > to),
              (x) => besideHole(x, from, to),
            ),
          })),
  );
  const falling = evidence(trials, tops, () => 1);
  const highest = Math.max(falling, ...limits.map(({ log }) => log), ...holes.map(({ log }) => log));
  const weigh = (logs: readonly { readonly log: number }[], prior: number) =>
    (prior * logs.reduce((sum, { log }) => sum + Math.exp(log - highest), 0)) / Math.max(1, logs.length);
  const [fall, limit, hole] = [weigh([{ log: falling }], 1), weigh(limits, SHAPE.prior), weigh(holes, SHAPE.prior)] as const;
  if (fall > (1 - SHAPE.sure) * (fall + limit + hole)) return { kind: 'falling' };
  const best = <Edge extends { readonly log: number }>(all: readonly Edge[]) => all.reduce((a, b) => (b.log > a.log ? b : a));
  if (limit > hole) return { kind: 'lowerLimit', fromBpm: Math.exp(best(limits).edge) };
  const { from, to } = best(holes);
  if (wasOvercome(results, { from, to, today })) return { kind: 'falling' };
  return { kind: 'hole', fromBpm: Math.exp(from), toBpm: Math.exp(to) };
}

/** Whether the zone is one that was: on the latest day on which something in it was played, it was clean. Who became faster at once fails slowly first, and is clean faster later. */
function wasOvercome(
  results: readonly WeighedResult[],
  { from, to, today }: { readonly from: number; readonly to: number; readonly today: string | undefined },
): boolean {
  const inside = results.flatMap(({ tempoBpm, runs, clean, day, byEar = true }) => {
    const x = Math.log(tempoBpm);
    const counts = byEar && day !== undefined && (today === undefined || day <= today) && x >= from && x <= to;
    return counts ? [{ day, runs, clean }] : [];
  });
  const last = inside
    .map(({ day }) => day)
    .sort()
    .at(-1);
  const lately = inside.filter(({ day }) => day === last);
  const sum = (of: 'runs' | 'clean') => lately.reduce((total, result) => total + result[of], 0);
  return last !== undefined && sum('runs') > 0 && sum('clean') >= TARGET_SHARE * sum('runs');
}

interface Weighed {
  readonly x: number;
  readonly clean: number;
  readonly failed: number;
}

/** Results at each tempo together, on log tempo. */
function trialsOf(results: readonly WeighedResult[], today: string | undefined): readonly Weighed[] {
  const sums = new Map<number, { clean: number; failed: number }>();
  for (const { tempoBpm, runs, clean, day, byEar = true } of results) {
    if (!byEar || runs === 0 || (today !== undefined && day !== undefined && day > today)) continue;
    const age = today !== undefined && day !== undefined ? daysBetween(day, today) : 0;
    const worth = 0.5 ** (age / SHAPE.halfLifeDays);
    const sum = sums.get(tempoBpm) ?? { clean: 0, failed: 0 };
    sums.set(tempoBpm, { clean: sum.clean + worth * clean, failed: sum.failed + worth * (runs - clean) });
  }
  return [...sums].map(([tempoBpm, sum]) => ({ x: Math.log(tempoBpm), ...sum }));
}

/** Whether a faster tempo was clean for sure more often than a slower one: without that no other shape is looked for. */
const anyBetterFaster = (trials: readonly Weighed[]): boolean => {
  const shares = trials.map(({ x, clean, failed }) => ({ x, ...wilson(clean, clean + failed) }));
  return shares.some((slow) => shares.some((fast) => fast.x > slow.x && fast.low > slow.high));
};

const gridOf = (low: number, high: number, count: number): readonly number[] =>
  Array.from({ length: count }, (_, k) => low + ((high - low) * k) / (count - 1));

/** Log of how likely the trials are under falling curves with those clean tempi, times a factor that depends on tempo. */
function evidence(trials: readonly Weighed[], tops: readonly number[], factor: (x: number) => number): number {
  if (tops.length === 0) return Number.NEGATIVE_INFINITY;
  const factors = trials.map(({ x }) => factor(x));
  const logs = tops.flatMap((top) =>
    SHAPE.slopes.map((slope) => {
      const curve = curveThrough(top, slope);
      return trials.reduce((sum, { x, clean, failed }, i) => {
        const odds = Math.max(1e-6, cleanOdds(x, curve) * factors[i]!);
        return sum + clean * Math.log(odds) + failed * Math.log(1 - odds);
      }, 0);
    }),
  );
  const highest = Math.max(...logs);
  return highest + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - highest), 0) / logs.length);
}

const rising = (x: number, edge: number): number => 1 / (1 + Math.exp((edge - x) / SHAPE.edgeWidth));
const besideHole = (x: number, from: number, to: number): number => 1 - SHAPE.depth * rising(x, from) * (1 - rising(x, to));
