/** A day as a sentence names it: weekday, day and month. */
import { isDay, weekdayOf } from '../../day.ts';

const WEEKDAYS = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'] as const;
const MONTHS = ['January', 'February', 'March', 'April', 'May', 'June', 'July', 'August', 'September', 'October', 'November', 'December'] as const;

/** `dayName('2024-02-29')` is "Thursday, 29 February"; what is no day is given back as it is. */
export function dayName(day: string): string {
  if (!isDay(day)) return day;
  const [, month, dayOfMonth] = day.split('-').map(Number);
  return `${WEEKDAYS[weekdayOf(day) - 1]}, ${dayOfMonth} ${MONTHS[month! - 1]}`;
}
