/** Whether the microphone stands where it can hear: the loudest strokes, the softest ones and the kick against the room. */

import { median } from '@evenhand/core/quantiles';
import { dbOfAmplitude } from '@evenhand/core/units';

/** What is played at each moment of the check, and for how long, in seconds. Eleven in all. */
export const PLACING_STEPS = [
  { name: 'quiet', sec: 2 },
  { name: 'loudest', sec: 3 },
  { name: 'softest', sec: 3 },
  { name: 'kick', sec: 3 },
] as const;

export type PlacingStep = (typeof PLACING_STEPS)[number]['name'];

/** Highest peaks heard (full scale 1), a list per step, one reading in 50 ms. */
export type PlacingPeaks = Readonly<Record<PlacingStep, readonly number[]>>;

export type PlacingWord = 'fine' | 'silent' | 'clipped' | 'soft-lost' | 'kick-lost';

/** Above this a stroke clips, or nearly. */
const CLIPPED_DB = -1;

/** What a stroke must stand out over the room to be timed. Assumption: 12 dB, at which white noise moves a made stroke by less than .1 ms. */
const OVER_ROOM_DB = 12;

/** Microphones that give less than this give nothing. */
const SILENT_DB = -60;

/** What to say of the place: `fine` alone, or all that is wrong with it. A kick that was not played is not missed: `withKick` false. */
export function placementOf(peaks: PlacingPeaks, withKick: boolean): readonly PlacingWord[] {
  const loudest = highestDb(peaks.loudest);
  if (loudest < SILENT_DB) return ['silent'];
  const room = usualDb(peaks.quiet);
  const lost = (step: PlacingStep): boolean => highestDb(peaks[step]) < room + OVER_ROOM_DB;
  const words: readonly (PlacingWord | false)[] = [
    loudest > CLIPPED_DB && 'clipped',
    lost('softest') && 'soft-lost',
    withKick && lost('kick') && 'kick-lost',
  ];
  const wrong = words.filter((word) => word !== false);
  return wrong.length > 0 ? wrong : ['fine'];
}

const highestDb = (peaks: readonly number[]): number => dbOfAmplitude(Math.max(1e-6, ...peaks));

/** The middle of what the room gives, so that one knock does not count. */
const usualDb = (peaks: readonly number[]): number => dbOfAmplitude(Math.max(1e-6, peaks.length > 0 ? median(peaks) : 0));
