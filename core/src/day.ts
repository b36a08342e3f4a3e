/** Civil days as whole numbers: no clock, no zone, so no day is lost or doubled when clocks change. */
import { ParameterError } from './errors.ts';

/** Days of the week as ISO 8601 counts them: Monday 1 to Sunday 7. */
export type Weekday = 1 | 2 | 3 | 4 | 5 | 6 | 7;

/** Whether a text is a day that exists, written `YYYY-MM-DD`. `isDay('2023-02-29')` is false. */
export function isDay(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const [year, month, dayOfMonth] = partsOf(text);
  if (month < 1 || month > 12 || dayOfMonth < 1) return false;
  return dayOfNumber(numberOf(year, month, dayOfMonth)) === text;
}

/** Days since 1970-01-01, which is 0. Throws ParameterError unless `day` is a day that exists. */
export function dayNumber(day: string): number {
  if (!isDay(day)) throw new ParameterError('day', day, 'a day that exists, written YYYY-MM-DD');
  return numberOf(...partsOf(day));
}

/**
 * The day that is `number` days after 1970-01-01. Years 0 to 9999.
 * @source the Gregorian calendar: 146,097 days in 400 years, counted from 1 March so that the leap day comes last.
 */
export function dayOfNumber(number: number): string {
  const fromMarch = number + DAYS_TO_EPOCH;
  const era = Math.floor(fromMarch / ERA_DAYS);
  const dayOfEra = fromMarch - era * ERA_DAYS;
  const yearOfEra = Math.floor((dayOfEra - Math.floor(dayOfEra / 1460) + Math.floor(dayOfEra / 36524) - Math.floor(dayOfEra / 146096)) / 365);
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const monthFromMarch = Math.floor((5 * dayOfYear + 2) / 153);
  const month = monthFromMarch < 10 ? monthFromMarch + 3 : monthFromMarch - 9;
  const year = yearOfEra + era * 400 + (month <= 2 ? 1 : 0);
  const dayOfMonth = dayOfYear - Math.floor((153 * monthFromMarch + 2) / 5) + 1;
  return `${padded(year, 4)}-${padded(month, 2)}-${padded(dayOfMonth, 2)}`;
}

/** The day `count` days later, earlier when negative. `addDays('2024-02-28', 1)` is 2024-02-29. */
export const addDays = (day: string, count: number): string => dayOfNumber(dayNumber(day) + count);

/** The same day of the month so many months later, earlier when negative; the last of the month where it has no such day. `addMonths('2024-03-31', -1)` is 2024-02-29. */
export function addMonths(day: string, count: number): string {
  const [year, month, dayOfMonth] = partsOf(dayOfNumber(dayNumber(day)));
  const months = 12 * year + month - 1 + count;
  const first = `${padded(Math.floor(months / 12), 4)}-${padded((months % 12) + 1, 2)}`;
  return [dayOfMonth, 30, 29, 28].map((one) => `${first}-${padded(Math.min(one, dayOfMonth), 2)}`).find(isDay)!;
}

/** Days from `from` to `to`, negative when `to` is earlier. */
export const daysBetween = (from: string, to: string): number => dayNumber(to) - dayNumber(from);

/** Day of the week: 1970-01-01 was a Thursday, 4. */
export const weekdayOf = (day: string): Weekday => (((((dayNumber(day) + 3) % 7) + 7) % 7) + 1) as Weekday;

/** First day of the week that holds `day`; weeks begin on `weekStart`, Monday unless said. */
export const startOfWeek = (day: string, weekStart: Weekday = 1): string => addDays(day, -((weekdayOf(day) - weekStart + 7) % 7));

const ERA_DAYS = 146097;
/** Days from 0000-03-01 to 1970-01-01. */
const DAYS_TO_EPOCH = 719468;

const partsOf = (text: string): [number, number, number] => [Number(text.slice(0, 4)), Number(text.slice(5, 7)), Number(text.slice(8, 10))];

const padded = (value: number, width: number): string => String(value).padStart(width, '0');

function numberOf(year: number, month: number, dayOfMonth: number): number {
  const marchYear = month <= 2 ? year - 1 : year;
  const era = Math.floor(marchYear / 400);
  const yearOfEra = marchYear - era * 400;
  const dayOfYear = Math.floor((153 * (month > 2 ? month - 3 : month + 9) + 2) / 5) + dayOfMonth - 1;
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * ERA_DAYS + dayOfEra - DAYS_TO_EPOCH;
}
