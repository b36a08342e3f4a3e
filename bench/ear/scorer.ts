/** Judges detected times against true ones: one-to-one matching, F, bias, spread, false lateness per place, filled misses. */
import { median } from '../../core/src/quantiles.ts';

/** A true stroke of an annotated take (fields of reference/takes). `onset` is null when it was missed. */
export interface TrueStroke {
  readonly onset: number | null;
  readonly index: number | null;
  readonly cycle: number | null;
  readonly surface: string;
  readonly level: string;
  readonly grace: boolean;
  readonly missed: boolean;
  readonly extra: boolean;
  readonly gridTime: number;
  readonly rms20Dbfs: number;
  readonly smrDb: number | null;
}

/** The truth of one take. */
export interface Truth {
  readonly id: string;
  readonly strokes: readonly TrueStroke[];
  readonly clicks: readonly number[];
  readonly levelsReliable?: boolean;
}

/** A detection: its time, and what else the detector says of it. */
export interface Detection {
  readonly timeSec: number;
  readonly levelDb?: number;
  readonly confidence?: number;
}

/** One take: truth and the detections in rising time. */
export interface Judged {
  readonly truth: Truth;
  readonly detections: readonly Detection[];
}

/** A pair of indices: reference, estimate. */
export type Pair = readonly [reference: number, estimate: number];

interface Link {
  readonly count: number;
  readonly cost: number;
  readonly pair: Pair | null;
  readonly before: Link | null;
}

const EDGE_SEC = 1e-9;

/**
 * The one-to-one, order-keeping matching with most pairs within `windowSec`, and among those the least total error.
 * Both lists in rising order, in seconds. Gives pairs in rising order; an empty list gives none.
 */
export const matchTimes = (reference: readonly number[], estimate: readonly number[], windowSec: number): Pair[] => {
  let row: Link[] = [{ count: 0, cost: 0, pair: null, before: null }];
  let rowLow = 0;
  let low = 0;
  for (let i = 0; i < reference.length; i++) {
    const time = reference[i]!;
    while (low < estimate.length && estimate[low]! < time - windowSec - EDGE_SEC) low++;
    const previous = row;
    const previousLow = rowLow;
    const before = (j: number): Link => previous[Math.min(Math.max(j, previousLow), previousLow + previous.length - 1) - previousLow]!;
    row = [before(low)];
    rowLow = low;
    for (let j = low; j < estimate.length && estimate[j]! <= time + windowSec + EDGE_SEC; j++) {
      row.push(better(better(row.at(-1)!, before(j + 1)), extend(before(j), Math.abs(time - estimate[j]!), [i, j])));
    }
  }
  return unwind(row.at(-1)!);
};

const better = (a: Link, b: Link): Link => (b.count > a.count || (b.count === a.count && b.cost < a.cost) ? b : a);

const extend = (link: Link, cost: number, pair: Pair): Link => ({ count: link.count + 1, cost: link.cost + cost, pair, before: link });

const unwind = (last: Link): Pair[] => {
  const pairs: Pair[] = [];
  for (let link: Link | null = last; link; link = link.before) if (link.pair) pairs.push(link.pair);
  return pairs.reverse();
};

/** Precision, recall and F of counts; nothing found gives 0. */
export const fMeasure = (hits: number, falseAlarms: number, misses: number): { f: number; precision: number; recall: number } => {
  const precision = hits + falseAlarms > 0 ? hits / (hits + falseAlarms) : 0;
  const recall = hits + misses > 0 ? hits / (hits + misses) : 0;
  return { f: precision + recall > 0 ? (2 * precision * recall) / (precision + recall) : 0, precision, recall };
};

/** F of two plain lists of times. */
export const fOfTimes = (reference: readonly number[], estimate: readonly number[], windowSec: number) => {
  const hits = matchTimes(reference, estimate, windowSec).length;
  return fMeasure(hits, estimate.length - hits, reference.length - hits);
};

/** A matched or unmatched true stroke; `errorMs` is detected − true, null when not matched. */
export interface Outcome {
  readonly truth: Truth;
  readonly stroke: TrueStroke;
  readonly detection: Detection | null;
  readonly errorMs: number | null;
}

/** Counts and errors inside one window. */
export interface WindowScore {
  readonly hits: number;
  readonly falseAlarms: number;
  readonly misses: number;
  readonly f: number;
  readonly errorsMs: readonly number[];
}

/** What to leave out of the count: strokes below this stroke-to-rest ratio are neither hits nor misses. */
export interface Care {
  readonly shiftMs?: number;
  readonly minSmrDb?: number;
}

/** True strokes of a take that sound, in rising time. */
export const sounding = (truth: Truth): readonly TrueStroke[] => truth.strokes.filter((s) => s.onset !== null);

/** Outcomes of every true stroke of a take within `windowSec`, after `shiftMs` is taken off the detections. */
export const outcomesOf = ({ truth, detections }: Judged, windowSec: number, shiftMs = 0): { outcomes: Outcome[]; unmatched: Detection[] } => {
  const strokes = sounding(truth);
  const times = detections.map((d) => d.timeSec - shiftMs / 1000);
  const pairs = matchTimes(
    strokes.map((s) => s.onset!),
    times,
    windowSec,
  );
  const partner = new Map(pairs);
  const used = new Set(pairs.map(([, j]) => j));
  return {
    outcomes: strokes.map((stroke, i) => {
      const j = partner.get(i);
      return {
        truth,
        stroke,
        detection: j === undefined ? null : detections[j]!,
        errorMs: j === undefined ? null : (times[j]! - stroke.onset!) * 1000,
      };
    }),
    unmatched: detections.filter((_, j) => !used.has(j)),
  };
};

/** Scores a set of takes inside one window. */
export const scoreWindow = (takes: readonly Judged[], windowMs: number, care: Care = {}): WindowScore => {
  let falseAlarms = 0;
  const cared: Outcome[] = [];
  for (const take of takes) {
    const { outcomes, unmatched } = outcomesOf(take, windowMs / 1000, care.shiftMs ?? 0);
    falseAlarms += unmatched.length;
    cared.push(...outcomes.filter(({ stroke }) => care.minSmrDb === undefined || stroke.smrDb === null || stroke.smrDb >= care.minSmrDb));
  }
  const errorsMs = cared.flatMap(({ errorMs }) => (errorMs === null ? [] : [errorMs]));
  const misses = cared.length - errorsMs.length;
  return { hits: errorsMs.length, falseAlarms, misses, f: fMeasure(errorsMs.length, falseAlarms, misses).f, errorsMs };
};

/** The constant of a detector: median signed error in ms over everything within ±50 ms; nothing matched gives 0. */
export const constantMs = (takes: readonly Judged[]): number => {
  const { errorsMs } = scoreWindow(takes, 50);
  return errorsMs.length > 0 ? median(errorsMs) : 0;
};

/** Median absolute deviation from the median; an empty list gives NaN. */
export const madOf = (values: readonly number[]): number => {
  const middle = median(values);
  return median(values.map((v) => Math.abs(v - middle)));
};

/**
 * RMS in ms over (take, place in the sticking) of that place's mean error inside ±25 ms, the take's mean removed; places of fewer than
 * five strokes left out. `average: 'median'` takes medians instead, as EAR.md defines the figure. Only detections of at least `minConfidence` count.
 */
export const slotBiasMs = (takes: readonly Judged[], { shiftMs = 0, minConfidence = 0, average = 'mean' as 'mean' | 'median' } = {}): number => {
  const centre = average === 'mean' ? mean : median;
  const squares: number[] = [];
  for (const take of takes) {
    const places = new Map<number, number[]>();
    for (const { stroke, detection, errorMs } of outcomesOf(take, 0.025, shiftMs).outcomes) {
      if (errorMs === null || stroke.index === null || (detection?.confidence ?? 1) < minConfidence) continue;
      places.set(stroke.index, [...(places.get(stroke.index) ?? []), errorMs]);
    }
    const all = centre([...places.values()].flat());
    for (const errors of places.values()) if (errors.length >= 5) squares.push((centre(errors) - all) ** 2);
  }
  return Math.sqrt(mean(squares));
};

const mean = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;

/** Truly missed strokes, and how many of them have a detection within 25 ms of where they should have been that matches no true stroke. */
export const filledMisses = (takes: readonly Judged[], shiftMs = 0): { missed: number; filled: number } => {
  let missed = 0;
  let filled = 0;
  for (const take of takes) {
    const { unmatched } = outcomesOf(take, 0.025, shiftMs);
    for (const { gridTime } of take.truth.strokes.filter((s) => s.missed)) {
      missed++;
      if (unmatched.some((d) => Math.abs(d.timeSec - shiftMs / 1000 - gridTime) < 0.025)) filled++;
    }
  }
  return { missed, filled };
};

/** Median absolute level error in dB against the dry stroke's RMS over 20 ms, the median difference of each take removed. */
export const levelErrorsDb = (takes: readonly Judged[]): number[] =>
  takes
    .filter(({ truth }) => truth.levelsReliable ?? true)
    .flatMap((take) => {
      const differences = outcomesOf(take, 0.025).outcomes.flatMap(({ detection, stroke }) =>
        detection?.levelDb === undefined ? [] : [detection.levelDb - stroke.rms20Dbfs],
      );
      const middle = median(differences);
      return differences.map((d) => d - middle);
    });
