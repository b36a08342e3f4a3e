/** Which civil days are for practice. */
import { addDays, type Weekday, weekdayOf } from '../day.ts';

/**
 * Days of the week for practice, ascending.
 * @param days how many, 1 to 7, spread evenly over the seven days from `start` on, which is the first; or which, in any order.
 * @param start civil day.
 */
export function practiceWeekdays(days: number | readonly Weekday[], start: string): readonly Weekday[] {
  const chosen = typeof days === 'number' ? Array.from({ length: days }, (_, k) => weekdayOf(addDays(start, Math.floor((k * 7) / days)))) : days;
  return [...new Set(chosen)].sort((a, b) => a - b);
}

/**
 * The next `count` practice days from `from` on, that day included, in order.
 * @param without days that are left out.
 */
export function practiceDays(
  from: string,
  count: number,
  { weekdays, without }: { weekdays: readonly Weekday[]; without: ReadonlySet<string> },
): readonly string[] {
  const days: string[] = [];
  for (let day = from; days.length < count; day = addDays(day, 1)) {
    if (weekdays.includes(weekdayOf(day)) && !without.has(day)) days.push(day);
  }
  return days;
}
