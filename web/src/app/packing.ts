/** Has takes that are over packed into FLAC, one by one, while nobody plays. */
import type { Reading } from '@evenhand/core/problem';
import type { Packed } from '../worker/protocol.ts';

/** How long nothing must have been asked for. Assumption: who has just finished a take is about to record the next. */
export const REST_MS = 20_000;

/** Between two takes, so that the Worker answers what came meanwhile. */
export const BETWEEN_MS = 1000;

export interface Packing {
  /** There may be something to pack: a take was recorded, or the app was opened. */
  wake(): void;
}

/**
 * @param idle whether nothing is played, heard or brought in now.
 * @param packOne packs one take.
 */
export function packAtRest(idle: () => boolean, packOne: () => Promise<Reading<Packed>>): Packing {
  let timer: ReturnType<typeof setTimeout> | null = null;
  let working = false;
  let woken = false;

  const look = async (): Promise<void> => {
    timer = null;
    if (!idle()) return again(REST_MS);
    working = true;
    woken = false;
    const { value } = await packOne();
    working = false;
    if (woken || value?.more) again(woken ? REST_MS : BETWEEN_MS);
  };
  const again = (afterMs: number): void => {
    if (timer !== null) clearTimeout(timer);
    timer = setTimeout(look, afterMs);
  };
  return {
    wake() {
      woken = true;
      if (!working) again(REST_MS);
    },
  };
}
