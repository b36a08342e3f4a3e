/** When a stroke comes and how loud it is, each in one word: the same word on every page and screen. */
import { ALIKE_DB, CLEAR_DB } from './parameters.ts';

/** How one volume lies against another. */
export type VolumeWord = 'clearlySofter' | 'littleSofter' | 'alike' | 'littleLouder' | 'clearlyLouder';

/** When strokes come. */
export type TimeWord = 'early' | 'littleEarly' | 'perhapsEarly' | 'inTime' | 'perhapsLate' | 'littleLate' | 'late';

/** A median error with its 95 % interval, ms; below 0 is early. */
export interface TimeTold {
  readonly biasMs: number;
  readonly lowMs: number;
  readonly highMs: number;
}

/**
 * @param byDb a volume less the one it is held against, dB; below 0 is softer.
 * @example volumeWord(-2) // 'littleSofter'
 */
export function volumeWord(byDb: number): VolumeWord {
  const size = Math.abs(byDb);
  if (size < ALIKE_DB) return 'alike';
  if (size < CLEAR_DB) return byDb < 0 ? 'littleSofter' : 'littleLouder';
  return byDb < 0 ? 'clearlySofter' : 'clearlyLouder';
}

/**
 * In time is what nobody hears to be off; what would be heard, and the interval does not tell from it, is off perhaps.
 * @param heardMs what is just heard there (`audibleMs` of the space to the nearest neighbour); from twice of it on no “a little” is said.
 * @example timeWord({ biasMs: -9, lowMs: -12, highMs: -6 }, 6) // 'littleEarly'
 */
export function timeWord({ biasMs, lowMs, highMs }: TimeTold, heardMs: number): TimeWord {
  const size = Math.abs(biasMs);
  const sure = biasMs < 0 ? highMs < 0 : lowMs > 0;
  if (size < heardMs) return 'inTime';
  if (!sure) return biasMs < 0 ? 'perhapsEarly' : 'perhapsLate';
  if (size < 2 * heardMs) return biasMs < 0 ? 'littleEarly' : 'littleLate';
  return biasMs < 0 ? 'early' : 'late';
}
