/** The clean tempo of each week by that week's results alone, so that two weeks can be held against each other. */
import { addDays, startOfWeek } from '../day.ts';
import { isTelling, rangeOf, together } from './courseranges.ts';
import { columnsFor, dayLogs } from './daylogs.ts';
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
export function weekTempi(results: readonly ExerciseResult[], exerciseId: string): readonly WeekTempo[] {
  const own = results.filter((result) => result.exerciseId === exerciseId && result.runs > 0);
  const weeks = [...new Set(own.map(({ day }) => startOfWeek(day)))].sort();
  return weeks.flatMap((from) => {
    const to = addDays(from, 6);
    return (
      weekTempo(
        own.filter(({ day }) => day >= from && day <= to),
        from,
      ) ?? []
    );
  });
}

function weekTempo(results: readonly ExerciseResult[], from: string): WeekTempo | null {
  const days = [...new Set(results.map(({ day }) => day))];
  const columns = columnsFor(results);
  const logs = dayLogs(results, days, { form: COURSE_FORMS.first, columns });
  const whole = together(logs);
  if (!isTelling(whole)) return null;
  const bpmAt = (k: number) => Math.exp(columns.first + k * COURSE_GRID.step);
  const { low, high } = rangeOf(whole, (k) => k);
  const top = whole.indexOf(whole.reduce((most, log) => Math.max(most, log), Number.NEGATIVE_INFINITY));
  const told = { from, bpm: bpmAt(top), lowBpm: bpmAt(low), highBpm: bpmAt(high) };
  return told.highBpm / told.lowBpm > WEEK_WIDEST ? null : told;
}
