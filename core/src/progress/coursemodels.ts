/** Models of a course, fitted to what each day tells: the same all along, moving smoothly, or with one step; each by its greatest likelihood. */
import type { Form } from './daylogs.ts';
import { COURSE_GRID, FEW_SMOOTH, FEWEST_SIDE_DAYS, SMOOTH } from './parameters.ts';

/** A course: `level` on the first day, `rise` up to the last along a curve, and from day `at` on `step` more. Log tempo. */
export interface Course {
  readonly level: number;
  readonly rise: number;
  /** How soon the curve flattens, over the whole of it; 0 is a straight line. */
  readonly bend: number;
  readonly step: number;
  /** Number of the first day after the step; 0 without one. */
  readonly at: number;
}

/** The likeliest course of a kind. */
export interface Fitted {
  readonly course: Course;
  readonly form: Form;
  readonly logLikelihood: number;
  /** Numbers that were fitted, the form not counted: it is fitted in every model. */
  readonly parameters: number;
}

export interface CourseFits {
  readonly flat: Fitted;
  readonly smooth: Fitted;
  /** Null when there are too few days on either side of any step. */
  readonly step: Fitted | null;
  /** The greatest log likelihood of a step at each day; −∞ where none was looked at. */
  readonly stepAt: readonly number[];
}

/** A form with what the days tell under it. */
export interface FormedDays {
  readonly form: Form;
  readonly first: number;
  /** Log likelihood by day, then by column. */
  readonly logs: readonly Float64Array[];
}

/** −2 · log likelihood + parameters · ln(days). The smaller, the better. @source [Schwarz1978] */
export const bic = ({ logLikelihood, parameters }: Pick<Fitted, 'logLikelihood' | 'parameters'>, dayCount: number): number =>
  -2 * logLikelihood + parameters * Math.log(dayCount);

/** Where a course stands on a day. @param dayCount days of the course; day numbers run from 0. */
export const courseAt = ({ level, rise, bend, step, at }: Course, day: number, dayCount: number): number =>
  level + rise * shape(bend, dayCount > 1 ? day / (dayCount - 1) : 0) + (at > 0 && day >= at ? step : 0);

/** From 0 to 1, in a straight line or soon and then ever less. */
export const shape = (bend: number, share: number): number => (bend === 0 ? share : (1 - Math.exp(-bend * share)) / (1 - Math.exp(-bend)));

/** The likeliest course of each kind under the form of the days. */
export function fitCourses(days: FormedDays): CourseFits {
  const dayCount = days.logs.length;
  const stepAt = Array.from({ length: dayCount }, () => Number.NEGATIVE_INFINITY);
  let flat: Fitted | null = null;
  let smooth: Fitted | null = null;
  let step: Fitted | null = null;
  for (const { rise, bend } of smoothCourses(SMOOTH)) {
    const sums = summed(days, { rise, bend });
    const told = { rise, bend, days };
    const whole = fittedOf(told, { whole: best(sums, { from: 0, to: dayCount }), split: null });
    if (rise === 0) flat = whole;
    smooth = better(smooth, whole, dayCount);
    for (let at = FEWEST_SIDE_DAYS; at <= dayCount - FEWEST_SIDE_DAYS; at++) {
      const split = { at, after: best(sums, { from: at, to: dayCount }) };
      const fitted = fittedOf(told, { whole: best(sums, { from: 0, to: at }), split });
      stepAt[at] = Math.max(stepAt[at]!, fitted.logLikelihood);
      step = better(step, fitted, dayCount);
    }
  }
  return { flat: flat!, smooth: smooth!, step, stepAt };
}

/** How likely the days are by the likeliest smooth course of a few: what forms are told apart by. */
export function smoothLikelihood(days: FormedDays): number {
  const all = smoothCourses(FEW_SMOOTH).map((course) => best(summed(days, course), { from: 0, to: days.logs.length }).log);
  return Math.max(...all);
}

/** Rises and bends that are looked at; without a rise there is no bend. */
export function smoothCourses({ least, most, step, bends }: typeof SMOOTH | typeof FEW_SMOOTH): readonly Pick<Course, 'rise' | 'bend'>[] {
  const count = Math.round((most - least) / step);
  const rises = Array.from({ length: count + 1 }, (_, k) => least + k * step).filter((rise) => Math.abs(rise) > step / 2);
  return [{ rise: 0, bend: 0 }, ...bends.flatMap((bend) => rises.map((rise) => ({ rise, bend })))];
}

/** Sums of log likelihood over the days up to each, by level of the first day: row `d` holds days 0 to d − 1. */
export interface Summed {
  readonly width: number;
  readonly sums: Float64Array;
}

export function summed({ logs }: FormedDays, { rise, bend }: Pick<Course, 'rise' | 'bend'>): Summed {
  const [dayCount, width] = [logs.length, logs[0]!.length];
  const sums = new Float64Array((dayCount + 1) * width);
  for (const [d, row] of logs.entries()) {
    const upToDay = sums.subarray((d + 1) * width, (d + 2) * width);
    upToDay.set(sums.subarray(d * width, (d + 1) * width));
    addMoved(upToDay, row, rise * shape(bend, dayCount > 1 ? d / (dayCount - 1) : 0));
  }
  return { width, sums };
}

/** Adds to each column what a row tells of a tempo so much faster, log tempo; beyond its columns the last one goes on. */
export function addMoved(sums: Float64Array, row: Float64Array, by: number): void {
  const last = row.length - 1;
  const columns = by / COURSE_GRID.step;
  const whole = Math.floor(columns);
  const part = columns - whole;
  for (let k = 0; k <= last; k++) {
    const low = row[Math.max(0, Math.min(last, k + whole))]!;
    const high = row[Math.max(0, Math.min(last, k + whole + 1))]!;
    sums[k]! += (1 - part) * low + part * high;
  }
}

interface Best {
  readonly log: number;
  readonly column: number;
}

/** The level at which some days are likeliest. */
function best({ width, sums }: Summed, { from, to }: { readonly from: number; readonly to: number }): Best {
  let [log, column] = [Number.NEGATIVE_INFINITY, 0];
  for (let k = 0; k < width; k++) {
    const value = sums[to * width + k]! - sums[from * width + k]!;
    if (value > log) [log, column] = [value, k];
  }
  return { log, column };
}

function fittedOf(
  { rise, bend, days }: Pick<Course, 'rise' | 'bend'> & { readonly days: FormedDays },
  { whole, split }: { readonly whole: Best; readonly split: { readonly at: number; readonly after: Best } | null },
): Fitted {
  const step = split ? (split.after.column - whole.column) * COURSE_GRID.step : 0;
  return {
    course: { level: days.first + whole.column * COURSE_GRID.step, rise, bend, step, at: split?.at ?? 0 },
    form: days.form,
    logLikelihood: whole.log + (split?.after.log ?? 0),
    parameters: 1 + (rise === 0 ? 0 : 1) + (bend === 0 ? 0 : 1) + (split ? 2 : 0),
  };
}

/** The better by Schwarz's measure. */
function better(one: Fitted | null, other: Fitted, dayCount: number): Fitted {
  return one === null || bic(other, dayCount) < bic(one, dayCount) ? other : one;
}
