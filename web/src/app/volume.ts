/** The microphone's volume for the eye: a peak that falls slowly, as a share of a bar and as a word. */
import { dbOfAmplitude } from '@evenhand/core/units';

/** Share of the last peak that is left at the next look, about 20 times a second. Assumption: falls by 10 dB in a second. */
const FALL = 0.944;

/** Bottom of the bar, dB of full scale. Assumption: below the floor of a quiet room through a phone. */
const BOTTOM_DB = -60;

/** Loudest stroke above this clips soon, below that the ear loses soft strokes. Assumption: 1 dB and 30 dB under full scale. */
const LOUD_DB = -1;
const SOFT_DB = -30;

/** The peak to show after a new one was heard. */
export const heldPeak = (held: number, peak: number): number => Math.max(peak, held * FALL);

/** A peak (full scale 1) as a share of the bar and a word. */
export function volumeOf(peak: number): { readonly share: number; readonly word: 'soft' | 'fine' | 'loud' } {
  const peakDb = dbOfAmplitude(peak);
  const share = Math.min(1, Math.max(0, 1 - peakDb / BOTTOM_DB));
  return { share, word: peakDb > LOUD_DB ? 'loud' : peakDb < SOFT_DB ? 'soft' : 'fine' };
}
