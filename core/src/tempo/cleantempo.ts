/** The tempo at which 85 % of runs are clean, as a median with a 90 % interval, or an honest "too little yet". */
import type { Statement } from '../problem.ts';
import { FEWEST_RUNS, WIDEST_RATIO } from './parameters.ts';
import { believe, type ExpectedTempo, tempoBelow, type WeighedResult } from './tempobelief.ts';
import { type TempoShape, tempoShape } from './temposhape.ts';

/** A clean tempo, in beats per minute, not rounded. */
export interface CleanTempo {
  readonly known: true;
  readonly median: number;
  readonly low90: number;
  readonly high90: number;
  /** Runs it rests on. */
  readonly runs: number;
  /** Only where runs do not simply fall off with tempo. */
  readonly shape?: Exclude<TempoShape, { readonly kind: 'falling' }>;
  /** With a poor zone: how far the range above it goes. The figures above are then those of the range below it. */
  readonly above?: TempoRange;
}

/** A clean tempo with its 90 % range, beats per minute. */
export interface TempoRange {
  readonly median: number;
  readonly low90: number;
  readonly high90: number;
}

/** Why no clean tempo can be told yet. */
export type TooLittle =
  | Statement<'clean-tempo-few-runs', { readonly runs: number; readonly needed: number }>
  | Statement<'clean-tempo-all-clean', { readonly fastestBpm: number }>
  | Statement<'clean-tempo-none-clean', { readonly slowestBpm: number }>
  | Statement<'clean-tempo-wide', { readonly lowBpm: number; readonly highBpm: number }>;

export type CleanTempoEstimate = CleanTempo | { readonly known: false; readonly why: TooLittle };

/**
 * Clean tempo of one exercise: middle and 90 % range of what is believed.
 * @param results of one exercise, in any order.
 * @param today the day it is told for; needed to let results age. Later results are left out.
 */
export function cleanTempo(results: readonly WeighedResult[], today?: string, expected?: ExpectedTempo): CleanTempoEstimate {
  const counted = results.filter(({ day, runs }) => runs > 0 && (today === undefined || day === undefined || day <= today));
  const doubt = tooLittle(counted);
  if (doubt) return { known: false, why: doubt };
  const shape = tempoShape(counted, today);
  const below = shape.kind === 'hole' ? counted.filter(({ tempoBpm }) => tempoBpm < Math.sqrt(shape.fromBpm * shape.toBpm)) : counted;
  const range = rangeOf(below.length > 0 ? below : counted, { today, expected });
  const { low90, high90 } = range;
  if (high90 / low90 > WIDEST_RATIO) return { known: false, why: { code: 'clean-tempo-wide', params: { lowBpm: low90, highBpm: high90 } } };
  const runs = sumOf(counted, (result) => result.runs);
  if (shape.kind === 'falling') return { known: true, ...range, runs };
  const upper = shape.kind === 'hole' ? counted.filter(({ tempoBpm }) => tempoBpm >= shape.toBpm) : [];
  const above = upper.length > 0 ? rangeOf(upper, { today }) : null;
  const told = above !== null && above.high90 / above.low90 <= WIDEST_RATIO;
  return { known: true, ...range, runs, shape, ...(told ? { above } : {}) };
}

function rangeOf(results: readonly WeighedResult[], options: Parameters<typeof believe>[1]): TempoRange {
  const belief = believe(results, options);
  return { low90: tempoBelow(belief, 0.05), median: tempoBelow(belief, 0.5), high90: tempoBelow(belief, 0.95) };
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

const sumOf = <Item>(items: readonly Item[], of: (item: Item) => number): number => items.reduce((sum, item) => sum + of(item), 0);
