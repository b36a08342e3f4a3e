/** Courses that stand still for a while and move before or after it, in straight lines that join: the likeliest of them. */
import { addMoved, bic, type FormedDays } from './coursemodels.ts';
import { topOf } from './daylogs.ts';
import { COURSE_GRID, FEWEST_SIDE_DAYS, STOOD } from './parameters.ts';

/** A course that stands at `level` from day `from` to day `to`, both by number, and moves by so much a day with results before and after; log tempo. */
export interface Stood {
  readonly level: number;
  readonly from: number;
  readonly to: number;
  readonly before: number;
  readonly after: number;
  readonly logLikelihood: number;
  /** Numbers that were fitted: the level, and for each line its slope and where it joins. */
  readonly parameters: number;
}

/** Where such a course stands on a day, by number. */
export const stoodAt = ({ level, from, to, before, after }: Stood, day: number): number =>
  level + before * Math.min(0, day - from) + after * Math.max(0, day - to);

/** A line that leaves a level on a day: the log likelihood of its days by column of the level, at its likeliest slope, and which slope that is. */
interface Arm {
  readonly logs: Float64Array;
  readonly slopes: Float64Array;
}

/**
 * The likeliest course that stands and then moves, with or without a line before it, by Schwarz's measure: each join is one more number.
 * Null where there are too few days.
 * @source [Hinkley1971] two lines that join at a day that is not known; [Yao1988] how many joins there are, by Schwarz's measure.
 */
export function fitStood(days: FormedDays): Stood | null {
  const { logs } = days;
  const count = logs.length;
  const upTo = sumsUpTo(logs);
  const afters = new Map<number, Arm>();
  let likeliest: Stood | null = null;
  for (let from = 0; from < count; from++) {
    // A line before it has some days, or there is none.
    if (from > 0 && from < FEWEST_SIDE_DAYS) continue;
    const before = from === 0 ? null : armFrom(logs, { at: from, way: -1 });
    for (let to = from + STOOD.fewestDays - 1; to < count - FEWEST_SIDE_DAYS; to++) {
      const after = afters.get(to) ?? armFrom(logs, { at: to, way: 1 });
      afters.set(to, after);
      const fitted = joined({ upTo, first: days.first, from, to }, before, after);
      if (likeliest === null || bic(fitted, count) < bic(likeliest, count)) likeliest = fitted;
    }
  }
  return likeliest;
}

/** Row `d` holds the sums of days 0 to d − 1, by column. */
function sumsUpTo(logs: readonly Float64Array[]): readonly Float64Array[] {
  const sums = [new Float64Array(logs[0]!.length)];
  for (const row of logs) sums.push(sums.at(-1)!.map((sum, k) => sum + row[k]!));
  return sums;
}

/** The days beyond `at` on one side, on a line through the level there. */
function armFrom(logs: readonly Float64Array[], { at, way }: { readonly at: number; readonly way: 1 | -1 }): Arm {
  const width = logs[0]!.length;
  const best = { logs: new Float64Array(width).fill(Number.NEGATIVE_INFINITY), slopes: new Float64Array(width) };
  for (const slope of STOOD.slopes) {
    const sums = new Float64Array(width);
    for (let d = at + way; d >= 0 && d < logs.length; d += way) addMoved(sums, logs[d]!, slope * (d - at));
    for (let k = 0; k < width; k++) {
      if (sums[k]! <= best.logs[k]!) continue;
      best.logs[k] = sums[k]!;
      best.slopes[k] = slope;
    }
  }
  return best;
}

interface Between {
  readonly upTo: readonly Float64Array[];
  readonly first: number;
  readonly from: number;
  readonly to: number;
}

function joined({ upTo, first, from, to }: Between, before: Arm | null, after: Arm): Stood {
  const still = upTo[to + 1]!.map((sum, k) => sum - upTo[from]![k]!);
  const whole = still.map((log, k) => log + (before?.logs[k] ?? 0) + after.logs[k]!);
  const logLikelihood = topOf(whole);
  const column = whole.indexOf(logLikelihood);
  return {
    level: first + column * COURSE_GRID.step,
    ...{ from, to, logLikelihood },
    before: before?.slopes[column] ?? 0,
    after: after.slopes[column]!,
    parameters: before ? 5 : 3,
  };
}
