/** What still sounds where a learnt sound ends: from there on each band falls on as it fell over the sound's last rows. */
import { sameInEngines } from '../signal/index.ts';
import * as P from './parameters.ts';

/** The sounds of a take and where they stand, as sounds.ts fits them. Arrays of rows hold `bands` values a row. */
interface Sounding {
  readonly sounds: readonly Float32Array[];
  /** First row of every event, rising, and its gains, one per sound. */
  readonly rows: Int32Array;
  readonly gains: Float32Array;
  readonly bands: number;
}

/** How one sound rings on: its energy at the row after its last, and what is left of it a row later, per band. */
interface Ring {
  readonly energy: Float64Array;
  readonly fall: Float64Array;
}

/**
 * Adds to `fitted` the ringing of all events past the end of their sounds. Without it a head that rings longer than the sounds are long
 * would look, there, like soft strokes that nothing explains.
 */
export const addRinging = (fitted: Float32Array, { sounds, rows, gains, bands }: Sounding): void => {
  const frames = fitted.length / bands;
  for (let s = 0; s < sounds.length; s++) {
    const ring = ringOf(sounds[s]!, bands);
    const left = new Float64Array(bands);
    let e = 0;
    for (let row = (rows[0] ?? frames) + P.SOUND_ROWS; row < frames; row++) {
      for (let b = 0; b < bands; b++) left[b] = left[b]! * ring.fall[b]!;
      for (; e < rows.length && rows[e]! + P.SOUND_ROWS <= row; e++) {
        const gain = gains[e * sounds.length + s]!;
        for (let b = 0; b < bands; b++) left[b] = Math.max(left[b]!, gain * ring.energy[b]!);
      }
      for (let b = 0; b < bands; b++) fitted[row * bands + b] = fitted[row * bands + b]! + left[b]!;
    }
  }
};

const ringOf = (sound: Float32Array, bands: number): Ring => {
  const energy = new Float64Array(bands);
  const fall = new Float64Array(bands);
  for (let b = 0; b < bands; b++) {
    const late = meanOfRows(sound, bands, { band: b, from: P.SOUND_ROWS - P.RING_ROWS });
    const before = meanOfRows(sound, bands, { band: b, from: P.SOUND_ROWS - 2 * P.RING_ROWS });
    if (before <= 0) continue;
    const seen = sameInEngines((late / before) ** (1 / P.RING_ROWS));
    fall[b] = seen <= P.RING_MOST ? seen : P.RING_DOUBT;
    energy[b] = late * sameInEngines(fall[b]! ** ((P.RING_ROWS + 1) / 2));
  }
  return { energy, fall };
};

const meanOfRows = (sound: Float32Array, bands: number, { band, from }: { readonly band: number; readonly from: number }): number => {
  let sum = 0;
  for (let r = from; r < from + P.RING_ROWS; r++) sum += sound[r * bands + band]!;
  return sum / P.RING_ROWS;
};
