/** Moments of the demo's days, as a clock on the wall of a zone shows them. */
import { msOfMinutes } from '@evenhand/core/units';

/**
 * The moment at which a clock in `zone` shows this time of this day. Of an hour that a zone leaves out, the one after it.
 * @param day `YYYY-MM-DD`.
 * @param minutes after midnight.
 * @param zone IANA name.
 * @returns milliseconds since 1970.
 */
export function momentOf(day: string, minutes: number, zone: string): number {
  const wanted = Date.parse(`${day}T00:00:00Z`) + msOfMinutes(minutes);
  // Once more, because the first guess may lie on the other side of a change of the clocks.
  const guess = wanted - aheadMs(wanted, zone);
  return wanted - aheadMs(guess, zone);
}

/** How far the clocks of a zone are ahead of UTC at a moment, milliseconds. */
function aheadMs(atMs: number, zone: string): number {
  const parts = new Intl.DateTimeFormat('en-US-u-ca-gregory-nu-latn', { ...CLOCK, timeZone: zone }).formatToParts(atMs);
  const part = (type: string) => Number(parts.find((one) => one.type === type)!.value);
  return Date.UTC(part('year'), part('month') - 1, part('day'), part('hour'), part('minute')) - msOfMinutes(Math.floor(atMs / msOfMinutes(1)));
}

const CLOCK = { hourCycle: 'h23', year: 'numeric', month: 'numeric', day: 'numeric', hour: 'numeric', minute: 'numeric' } as const;
