/** What an ear can just tell apart. */
import { AUDIBLE_MS, AUDIBLE_SHARE } from './parameters.ts';

/**
 * Smallest displacement of one stroke in an even row that is heard: max(6 ms, 2.5 % of the interval).
 * @param intervalMs time to the nearest neighbour.
 * @source [Friberg1995]
 * @example audibleMs(125) // 6
 */
export const audibleMs = (intervalMs: number): number => Math.max(AUDIBLE_MS, AUDIBLE_SHARE * intervalMs);
