/** The hybrid logical clock: stamps that follow the wall clock, never go backwards, and put all records in one order. */

import { MAX_AHEAD_MS } from './parameters.ts';
import type { DiaryRecord, Made } from './record.ts';

/**
 * The stamp of the next record.
 * @param last the latest stamp this device has written or seen (`latestMade`), null for none.
 * @param wallMs the device's clock, milliseconds since 1970; it may have been set back.
 * @param deviceId of this device.
 * @returns a stamp later than `last` in the order of `compareMade`.
 * @source [Kulkarni2014] the send rule of the hybrid logical clock, with the physical part kept as it is.
 */
export function nextStamp(last: Made | null, wallMs: number, deviceId: string): Made {
  if (last === null || wallMs > last.wallMs) return { wallMs, counter: 0, deviceId };
  return { wallMs: last.wallMs, counter: last.counter + 1, deviceId };
}

/**
 * What a device remembers as its latest stamp after it was given a record made elsewhere: what it writes next is later than what it has seen.
 * @param last its latest stamp so far, null for none.
 * @param seen stamp of the record from elsewhere; one more than MAX_AHEAD_MS ahead of `wallMs` is not followed.
 * @param wallMs the device's clock.
 */
export function observe(last: Made | null, seen: Made, wallMs: number): Made | null {
  if (seen.wallMs > wallMs + MAX_AHEAD_MS) return last;
  return last !== null && compareMade(last, seen) >= 0 ? last : seen;
}

/** Order of making: negative when `a` was made before `b`; 0 only for equal stamps. By time, then counter, then device. */
export function compareMade(a: Made, b: Made): number {
  return a.wallMs - b.wallMs || a.counter - b.counter || compareText(a.deviceId, b.deviceId);
}

/** The total order of records: by stamp, then by id. */
export function compareRecords(a: Pick<DiaryRecord, 'made' | 'id'>, b: Pick<DiaryRecord, 'made' | 'id'>): number {
  return compareMade(a.made, b.made) || compareText(a.id, b.id);
}

/** Order of texts by code unit, the same on every device. */
export const compareText = (a: string, b: string): number => Number(a > b) - Number(a < b);
