/** How suddenly energy comes up in any band, frame by frame. */
import { quantile } from '../signal/index.ts';
import * as P from './parameters.ts';

/** Band powers of consecutive frames, one row of `bandCount` values per frame. */
export interface Spectra {
  readonly powers: Float32Array;
  readonly frameCount: number;
  readonly bandCount: number;
}

/** Power per band under which there is only noise: a low quantile over the frames that are not digital silence. */
export const noiseFloors = ({ powers, frameCount, bandCount }: Spectra): Float64Array => {
  const floors = new Float64Array(bandCount);
  const column: number[] = [];
  for (let b = 0; b < bandCount; b++) {
    column.length = 0;
    for (let n = 0; n < frameCount; n += 4) {
      const power = powers[n * bandCount + b]!;
      if (power > 1e-16) column.push(power);
    }
    floors[b] = Math.max(1e-14, column.length > 0 ? quantile(column, P.FLOOR_QUANTILE) : 0);
  }
  return floors;
};

/** Log energies over the floor (natural log, 0 at silence). */
export const logEnergies = ({ powers, frameCount, bandCount }: Spectra, floors: Float64Array, floorGain: number): Float32Array => {
  const logs = new Float32Array(frameCount * bandCount);
  for (let n = 0, i = 0; n < frameCount; n++) {
    for (let b = 0; b < bandCount; b++, i++) logs[i] = Math.log(1 + powers[i]! / (floorGain * floors[b]!));
  }
  return logs;
};

/** The novelty curve: mean over bands of the rise of log energy from the frames before to those after; falls count nothing. */
export const noveltyCurve = (logs: Float32Array, frameCount: number, bandCount: number): Float32Array => {
  const curve = new Float32Array(frameCount);
  const beforeCount = P.BEFORE_FAR_FRAMES - P.BEFORE_NEAR_FRAMES + 1;
  for (let b = 0; b < bandCount; b++) {
    let before = 0;
    let after = 0;
    const at = (n: number) => (n >= 0 && n < frameCount ? logs[n * bandCount + b]! : 0);
    for (let k = 0; k < P.AFTER_FRAMES - 1; k++) after += at(k + 1 - 1);
    for (let n = 0; n < frameCount; n++) {
      after += at(n + P.AFTER_FRAMES) - at(n);
      before += at(n - P.BEFORE_NEAR_FRAMES) - at(n - P.BEFORE_FAR_FRAMES - 1);
      const rise = after / P.AFTER_FRAMES - before / beforeCount;
      if (rise > 0) curve[n] = curve[n]! + rise / bandCount;
    }
  }
  return curve;
};
