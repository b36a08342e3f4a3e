/** 90 % ranges of what a course is said to have done: the size of its step, its change a week; from the profile of the likelihood. */
import { mean } from '../measurement/index.ts';
import { addMoved, bic, type FormedDays, smoothCourses, summed } from './coursemodels.ts';
import { topOf } from './daylogs.ts';
import { COURSE_GRID, HALF_90_FALL, HELD_GRID, SMOOTH } from './parameters.ts';

/** A range, log tempo. */
export interface LogRange {
  readonly low: number;
  readonly high: number;
}

/** The 90 % range of a step at a day, whatever the course is otherwise. */
export function stepRange(days: FormedDays, at: number): LogRange {
  const dayCount = days.logs.length;
  const width = days.logs[0]!.length;
  const profile = new Float64Array(2 * width - 1).fill(Number.NEGATIVE_INFINITY);
  for (const course of smoothCourses(SMOOTH)) {
    const { sums } = summed(days, course);
    for (let before = 0; before < width; before++) {
      const log = sums[at * width + before]!;
      for (let after = 0; after < width; after++) {
        const value = log + sums[dayCount * width + after]! - sums[at * width + after]!;
        const by = after - before + width - 1;
        if (value > profile[by]!) profile[by] = value;
      }
    }
  }
  return rangeOf(profile, (k) => (k - width + 1) * COURSE_GRID.step);
}

/** The 90 % range of the whole rise of a smooth course, however it bends. */
export function riseRange(days: FormedDays): LogRange {
  const count = Math.round((SMOOTH.most - SMOOTH.least) / SMOOTH.step) + 1;
  const profile = new Float64Array(count).fill(Number.NEGATIVE_INFINITY);
  for (const course of smoothCourses(SMOOTH)) {
    const { sums, width } = summed(days, course);
    const place = Math.round((course.rise - SMOOTH.least) / SMOOTH.step);
    for (let k = 0; k < width; k++) profile[place] = Math.max(profile[place]!, sums[days.logs.length * width + k]!);
  }
  return rangeOf(profile, (k) => SMOOTH.least + k * SMOOTH.step);
}

/** A stretch of days as one level that may change by so much a week. */
export interface WeeklyRange extends LogRange {
  /** The level without any change, beats per minute, and its 90 % range. */
  readonly bpm: number;
  readonly lowBpm: number;
  readonly highBpm: number;
  /** Whether a change of some size tells the days better than none, by Schwarz's measure. */
  readonly better: boolean;
}

/** @param weeks weeks from the first of the days to each. @returns null when the level has no end on one side. */
export function weeklyRange(days: FormedDays, weeks: readonly number[]): WeeklyRange | null {
  const { first, logs } = days;
  const half = Math.round(HELD_GRID.most / HELD_GRID.step);
  const middle = mean(weeks);
  const levels = Array.from({ length: 2 * half + 1 }, (_, k) => levelsAt(logs, weeks, { change: (k - half) * HELD_GRID.step, middle }));
  const profile = levels.map(topOf);
  const { low, high } = rangeOf(profile, (k) => (k - half) * HELD_GRID.step);
  const still = levels[half]!;
  const level = rangeOf(still, (k) => first + k * COURSE_GRID.step);
  if (level.low <= first || level.high >= first + (still.length - 1) * COURSE_GRID.step) return null;
  const none = bic({ logLikelihood: profile[half]!, parameters: 1 }, weeks.length);
  const some = bic({ logLikelihood: topOf(profile), parameters: 2 }, weeks.length);
  const bpm = Math.exp(first + still.indexOf(profile[half]!) * COURSE_GRID.step);
  return { low, high, bpm, lowBpm: Math.exp(level.low), highBpm: Math.exp(level.high), better: some < none };
}

/** Log likelihood by the level in the middle of the weeks, for one change a week. */
function levelsAt(logs: readonly Float64Array[], weeks: readonly number[], { change, middle }: { readonly change: number; readonly middle: number }) {
  const sums = new Float64Array(logs[0]!.length);
  for (const [d, row] of logs.entries()) addMoved(sums, row, change * (weeks[d]! - middle));
  return sums;
}

/** From the first to the last place at which a profile is within a 90 % range of its top. */
export function rangeOf(profile: ArrayLike<number>, valueAt: (place: number) => number): LogRange {
  const top = topOf(profile);
  const inside = Array.from(profile, (log, k) => (log >= top - HALF_90_FALL ? k : -1)).filter((k) => k >= 0);
  return { low: valueAt(inside[0]!), high: valueAt(inside.at(-1)!) };
}

/** Whether a row by itself has an end on both sides: one of a day on which everything was clean does not. */
export function isTelling(logs: Float64Array): boolean {
  const most = topOf(logs);
  return most - logs[0]! > HALF_90_FALL && most - logs.at(-1)! > HALF_90_FALL;
}

/** What some days tell together of one level. */
export const together = (logs: readonly Float64Array[]): Float64Array => logs.reduce((sum, row) => sum.map((log, k) => log + row[k]!));
