/** A day where there is little room. */

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'June', 'July', 'Aug', 'Sept', 'Oct', 'Nov', 'Dec'];

/** `shortDay('2026-03-07', true)` is "7 Mar 2026". */
export function shortDay(day: string, withYear: boolean): string {
  const [year, month, dayOfMonth] = day.split('-').map(Number) as [number, number, number];
  return `${dayOfMonth} ${MONTHS[month - 1]}${withYear ? ` ${year}` : ''}`;
}
