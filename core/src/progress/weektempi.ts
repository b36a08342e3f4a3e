/** The clean tempo of each week by that week's results alone, so that two weeks can be held against each other. */
import { startOfWeek } from '../day.ts';
import { isTelling, rangeOf, together } from './courseranges.ts';
import { columnsFor, dayLogs, topOf } from './daylogs.ts';
import { COURSE_FORMS, COURSE_GRID, WEEK_WIDEST } from './parameters.ts';
import type { ExerciseResult } from './tempocurve.ts';

/** Beats per minute, with the 90 % range. */
export interface WeekTempo {
  /** First day of the week, a Monday. */
  readonly from: string;
  readonly bpm: number;
  readonly lowBpm: number;
  readonly highBpm: number;
}

/**
 * One for each week of the calendar whose results tell it on both sides and not too widely; ascending. The estimate of other stages leans on the days
 * before, as it should for the next tempo; held against each other, weeks must not share results.
 * @param results of any exercises, in any order.
 */
export const weekTempi = (results: readonly ExerciseResult[], exerciseId: string): readonly WeekTempo[] =>
  byWeek(results, exerciseId).flatMap((week) => weekTempo(week) ?? []);

/** The first and the last of them, looked for from both ends: ten years have five hundred weeks. Both null where no week tells it. */
export function firstAndLastTempo(
  results: readonly ExerciseResult[],
  exerciseId: string,
): readonly [first: WeekTempo | null, last: WeekTempo | null] {
  const weeks = byWeek(results, exerciseId);
  const first = firstTelling(weeks);
  return [first, first && firstTelling([...weeks].reverse())];
}

function firstTelling(weeks: readonly Week[]): WeekTempo | null {
  for (const week of weeks) {
    const told = weekTempo(week);
    if (told) return told;
  }
  return null;
}

/** First day of a week, and its results. */
type Week = readonly [from: string, results: readonly ExerciseResult[]];

/** Weeks with results of the exercise, ascending. */
function byWeek(results: readonly ExerciseResult[], exerciseId: string): readonly Week[] {
  const weeks = new Map<string, ExerciseResult[]>();
  for (const result of results) {
    if (result.exerciseId !== exerciseId || result.runs <= 0) continue;
    const from = startOfWeek(result.day);
    const week = weeks.get(from);
    if (week) week.push(result);
    else weeks.set(from, [result]);
  }
  return [...weeks].sort(([a], [b]) => (a < b ? -1 : 1));
}

function weekTempo([from, results]: Week): WeekTempo | null {
  const days = [...new Set(results.map(({ day }) => day))];
  const columns = columnsFor(results);
  const logs = dayLogs(results, days, { form: COURSE_FORMS.first, columns });
  const whole = together(logs);
  if (!isTelling(whole)) return null;
  const bpmAt = (k: number) => Math.exp(columns.first + k * COURSE_GRID.step);
  const { low, high } = rangeOf(whole, (k) => k);
  const top = whole.indexOf(topOf(whole));
  const told = { from, bpm: bpmAt(top), lowBpm: bpmAt(low), highBpm: bpmAt(high) };
  return told.highBpm / told.lowBpm > WEEK_WIDEST ? null : told;
}
