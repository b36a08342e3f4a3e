/** What a measurement got right and wrong against the truth of its take. */
import { worstPlace } from '../../core/src/finding/index.ts';
import type { Measurement } from '../../core/src/measurement/index.ts';
import { median } from '../../core/src/quantiles.ts';
import { matchTimes } from '../ear/scorer.ts';
import { mainIndices, type Truth } from './takes.ts';

/** Figures of one take; errors of places and levels one entry per place. */
export interface TakeFigures {
  readonly id: string;
  /** |bias − truth's median error|, each less its take's mean over places; Infinity where the place was omitted. */
  readonly placeErrorsMs: readonly number[];
  /** |mean level − truth's| after the mean difference of the drum is taken away. */
  readonly levelErrorsDb: readonly number[];
  /** How far the truth's worst place stands out, and how far, by the truth, the place that is reported as the worst; ms about the middle place. */
  readonly worst: { readonly truthMs: number; readonly atReportedMs: number };
  readonly trulyMissed: number;
  readonly missedReportedPlayed: number;
  readonly missedCalledMissed: number;
  readonly trulyPlayed: number;
  readonly playedCalledMissed: number;
  readonly playedNotAudible: number;
  /** Strokes without an entry in the measurement. */
  readonly unreported: number;
  readonly truePositives: number;
  readonly falsePositives: number;
  readonly falseNegatives: number;
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

/** Compares the measurement of a take with its truth. */
export function figuresOf(truth: Truth, measurement: Measurement | null): TakeFigures {
  return {
    id: truth.id,
    placeErrorsMs: placeErrors(truth, measurement),
    levelErrorsDb: levelErrors(truth, measurement),
    worst: worstOf(truth, measurement),
    ...statusFigures(truth, measurement),
    ...hits(truth, measurement),
  };
}

function placeErrors(truth: Truth, measurement: Measurement | null): number[] {
  const indices = mainIndices(truth);
  const places = truth.perStroke.flatMap((_, i) => {
    if (indices[i] === null) return [];
    const played = truth.strokes.filter((stroke) => stroke.index === i && stroke.onset !== null);
    const bias = measurement?.places.find(({ index }) => index === indices[i])?.biasMs ?? null;
    return [{ truth: median(played.map((stroke) => stroke.timingErrorMs)), bias }];
  });
  const given = places.filter((place) => place.bias !== null);
  const [trueMean, givenMean] = [mean(given.map((place) => place.truth)), mean(given.map((place) => place.bias!))];
  return places.map((place) => (place.bias === null ? Number.POSITIVE_INFINITY : Math.abs(place.bias - givenMean - (place.truth - trueMean))));
}

function worstOf(truth: Truth, measurement: Measurement | null): TakeFigures['worst'] {
  const indices = mainIndices(truth);
  const trueMs = new Map<number, number>();
  truth.perStroke.forEach((_, i) => {
    if (indices[i] === null) return;
    const played = truth.strokes.filter((stroke) => stroke.index === i && stroke.onset !== null);
    trueMs.set(indices[i]!, median(played.map((stroke) => stroke.timingErrorMs)));
  });
  const middle = median([...trueMs.values()]);
  const outMs = (index: number | null) => (index === null ? 0 : Math.abs(trueMs.get(index)! - middle));
  return { truthMs: Math.max(...[...trueMs.keys()].map(outMs)), atReportedMs: outMs(measurement && worstPlace(measurement)) };
}

function levelErrors(truth: Truth, measurement: Measurement | null): number[] {
  if (truth.levelsReliable === false) return [];
  const indices = mainIndices(truth);
  const byDrum = new Map<string, number[]>();
  truth.perStroke.forEach((place, i) => {
    const level = indices[i] === null ? null : measurement?.places.find(({ index }) => index === indices[i])?.levelDb;
    if (level === null || level === undefined) return;
    const played = truth.strokes.filter((stroke) => stroke.index === i && stroke.onset !== null);
    const off = level - mean(played.map((stroke) => stroke.rms20Dbfs));
    byDrum.set(place.surface, [...(byDrum.get(place.surface) ?? []), off]);
  });
  return [...byDrum.values()].filter((offs) => offs.length > 1).flatMap((offs) => offs.map((off) => Math.abs(off - mean(offs))));
}

function statusFigures(truth: Truth, measurement: Measurement | null) {
  const indices = mainIndices(truth);
  const mains = truth.strokes.filter((stroke) => !stroke.extra && !stroke.grace && stroke.index !== null);
  const statuses = mains.map((stroke) => {
    const found = measurement?.strokes.find(({ cycle, index }) => cycle === stroke.cycle && index === indices[stroke.index!]);
    return { missed: stroke.missed, status: found?.status ?? 'unreported' };
  });
  const count = (missed: boolean, status: string) => statuses.filter((one) => one.missed === missed && one.status === status).length;
  return {
    trulyMissed: mains.filter((stroke) => stroke.missed).length,
    missedReportedPlayed: count(true, 'played'),
    missedCalledMissed: count(true, 'missed'),
    trulyPlayed: mains.filter((stroke) => !stroke.missed).length,
    playedCalledMissed: count(false, 'missed'),
    playedNotAudible: count(false, 'notAudible'),
    unreported: count(true, 'unreported') + count(false, 'unreported'),
  };
}

/** Counts for F at ±5 ms over all onsets told (main strokes, graces, extra), one constant per take taken out. */
function hits(truth: Truth, measurement: Measurement | null) {
  const heard = (
    measurement ? [...measurement.strokes.flatMap((stroke) => [stroke.playedSec, ...stroke.graces.map((grace) => grace.playedSec)])] : []
  )
    .filter((sec) => sec !== null)
    .concat(measurement?.extra.map((extra) => extra.timeSec) ?? [])
    .sort((a, b) => a - b);
  const onsets = truth.strokes.flatMap((stroke) => (stroke.onset === null ? [] : [stroke.onset])).sort((a, b) => a - b);
  const close = matchTimes(onsets, heard, 0.05).map(([i, j]) => heard[j]! - onsets[i]!);
  const constant = close.length > 0 ? median(close) : 0;
  const shifted = heard.map((sec) => sec - constant);
  const found = matchTimes(onsets, shifted, 0.005).length;
  return { truePositives: found, falsePositives: heard.length - found, falseNegatives: onsets.length - found };
}

/** Figures over all takes. */
export interface Summary {
  readonly places: number;
  readonly placeMedianMs: number;
  readonly placeP90Ms: number;
  readonly levelMedianDb: number;
  readonly trulyMissed: number;
  readonly missedReportedPlayed: number;
  readonly missedCalledMissed: number;
  readonly playedCalledMissedShare: number;
  readonly f5: number;
}

export function summaryOf(takes: readonly TakeFigures[]): Summary {
  const places = takes.flatMap((take) => take.placeErrorsMs).sort((a, b) => a - b);
  const sum = (of: (take: TakeFigures) => number) => takes.reduce((total, take) => total + of(take), 0);
  const found = sum((take) => take.truePositives);
  return {
    places: places.length,
    placeMedianMs: median(places),
    placeP90Ms: places[Math.ceil(0.9 * places.length) - 1]!,
    levelMedianDb: median(takes.flatMap((take) => take.levelErrorsDb)),
    trulyMissed: sum((take) => take.trulyMissed),
    missedReportedPlayed: sum((take) => take.missedReportedPlayed),
    missedCalledMissed: sum((take) => take.missedCalledMissed),
    playedCalledMissedShare: sum((take) => take.playedCalledMissed) / sum((take) => take.trulyPlayed),
    f5: (2 * found) / (2 * found + sum((take) => take.falsePositives) + sum((take) => take.falseNegatives)),
  };
}
