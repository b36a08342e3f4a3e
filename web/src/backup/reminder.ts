/** When to remind the drummer of saving the diary to a file: never while nothing can be lost. */
import { msOfDays } from '@evenhand/core/units';
import type { Persistence } from '../store/store.ts';

/** Days after which a save is old, where the browser does not promise to keep the diary. Assumption: a week of practice is what one would not want to lose twice. */
const OLD_DAYS = 7;

export interface Keepsake {
  readonly persistence: Persistence;
  /** When the diary was saved to a file last, milliseconds since 1970; null for never. */
  readonly savedAtMs: number | null;
  /** The latest thing written, milliseconds since 1970; null for an empty diary. */
  readonly writtenAtMs: number | null;
  readonly nowMs: number;
}

/** Whether to remind: something was written since the last save, the browser may clear it, and the save is old or there is none. */
export function isTimeToSave({ persistence, savedAtMs, writtenAtMs, nowMs }: Keepsake): boolean {
  if (persistence === 'kept' || persistence === 'notAsked' || writtenAtMs === null) return false;
  if (savedAtMs === null) return true;
  return writtenAtMs > savedAtMs && nowMs - savedAtMs > msOfDays(OLD_DAYS);
}
