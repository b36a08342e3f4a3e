/** A day where there is little room. */

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sept', 'Oct', 'Nov', 'Dec'];

/** `shortDay('2026-03-07', true)` is "7 Mar 2026". */
export function shortDay(day: string, withYear: boolean): string {
  const [year, month, dayOfMonth] = day.split('-').map(Number) as [number, number, number];
  return `${dayOfMonth} ${MONTHS[month - 1]}${withYear ? ` ${year}` : ''}`;
}

/** The name of a month where there is little room: `shortMonth('2026-03-07')` is "Mar". */
export const shortMonth = (day: string): string => MONTHS[Number(day.slice(5, 7)) - 1]!;

/** From one day to another, the year where it is needed: "7 Jan to 19 Jan 2026". */
export const spanName = (from: string, to: string): string =>
  from === to ? shortDay(to, true) : `${shortDay(from, from.slice(0, 4) !== to.slice(0, 4))} to ${shortDay(to, true)}`;
