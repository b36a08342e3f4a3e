/** Practice days: civil dates that change at the player's cut-over hour, wherever the player is. */
import { addDays } from '../day.ts';
import { ParameterError } from '../errors.ts';

export { addDays, daysBetween, isDay } from '../day.ts';

/**
 * The practice day of a moment: the civil date in `zone`, or the date before while the clock there stands before `cutOverHour`.
 * It is computed once, at writing, and never again.
 * @param atMs milliseconds since 1970.
 * @param zone IANA name such as `Europe/Berlin`; throws ParameterError for one that is not known.
 * @param cutOverHour whole hour, 0 (midnight) to 12.
 * @returns `YYYY-MM-DD`.
 * @example practiceDay(Date.UTC(2024, 0, 1, 1, 30), 'Europe/Berlin', 4) // '2023-12-31': half past two at night
 */
export function practiceDay(atMs: number, zone: string, cutOverHour: number): string {
  if (!Number.isInteger(cutOverHour) || cutOverHour < 0 || cutOverHour > 12)
    throw new ParameterError('cutOverHour', cutOverHour, 'a whole hour from 0 to 12');
  const { day, hour } = civil(atMs, zone);
  return hour < cutOverHour ? addDays(day, -1) : day;
}

/** Civil date and hour that a clock on the wall shows in a zone. */
function civil(atMs: number, zone: string): { readonly day: string; readonly hour: number } {
  const parts = new Map(
    formatOf(zone)
      .formatToParts(atMs)
      .map(({ type, value }) => [type, value]),
  );
  const year = parts.get('year')!.padStart(4, '0');
  return { day: `${year}-${parts.get('month')}-${parts.get('day')}`, hour: Number(parts.get('hour')) };
}

/** The one made last: making it takes longer than all else of an entry's moment, and a device is in one zone for long. */
let latest: { readonly zone: string; readonly format: Intl.DateTimeFormat } | null = null;

function formatOf(zone: string): Intl.DateTimeFormat {
  if (latest?.zone !== zone) latest = { zone, format: madeFormat(zone) };
  return latest.format;
}

function madeFormat(zone: string): Intl.DateTimeFormat {
  try {
    return new Intl.DateTimeFormat('en-US-u-ca-gregory-nu-latn', {
      timeZone: zone,
      hourCycle: 'h23',
      year: 'numeric',
      month: '2-digit',
      day: '2-digit',
      hour: '2-digit',
    });
  } catch {
    throw new ParameterError('zone', zone, 'an IANA time zone');
  }
}
