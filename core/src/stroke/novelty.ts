/** How suddenly energy comes up in any band, frame by frame. */
import { quantileOfSorted } from '../quantiles.ts';
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
  const column = new Float64Array(Math.ceil(frameCount / 4));
  for (let b = 0; b < bandCount; b++) {
    let count = 0;
    for (let n = 0; n < frameCount; n += 4) {
      const power = powers[n * bandCount + b]!;
      if (power > 1e-16) column[count++] = power;
    }
    floors[b] = Math.max(1e-14, count > 0 ? quantileOfSorted(column.subarray(0, count).sort(), P.FLOOR_QUANTILE) : 0);
  }
  return floors;
};

/**
 * The novelty curve: how far the mean energy of the frames just after stands over that of the frames before, in nats over the floor, mean
 * over bands; falls count nothing. One value per frame.
 */
export const noveltyCurve = (spectra: Spectra, floors: Float64Array): Float32Array => {
  const rises = new Float64Array(spectra.frameCount).fill(1);
  const logs = new Float64Array(spectra.frameCount);
  const column = new Float64Array(spectra.frameCount + P.AFTER_FRAMES);
  for (let b = 0; b < spectra.bandCount; b++) {
    for (let n = 0; n < spectra.frameCount; n++) column[n] = spectra.powers[n * spectra.bandCount + b]! / floors[b]!;
    multiplyRises({ rises, logs }, column);
  }
  return Float32Array.from(logs, (log, n) => (log + Math.log(rises[n]!)) / spectra.bandCount);
};

/** Products of rises past this go into the sum of logs, long before they could overflow. */
const RISES_MOST = 1e200;

/**
 * Multiplies the rises of one band into those of the bands before: one logarithm in the end then does for all of them. Sums slide; sums of
 * positive numbers in double precision drift by nothing that matters.
 */
const multiplyRises = ({ rises, logs }: { rises: Float64Array; logs: Float64Array }, column: Float64Array): void => {
  let after = 0;
  let before = 0;
  for (let n = 0; n < P.AFTER_FRAMES - 1; n++) after += column[n]!;
  for (let n = 0; n < rises.length; n++) {
    after += column[n + P.AFTER_FRAMES - 1]! - (n > 0 ? column[n - 1]! : 0);
    if (n >= P.BEFORE_NEAR_FRAMES) before += column[n - P.BEFORE_NEAR_FRAMES]!;
    if (n > P.BEFORE_FAR_FRAMES) before -= column[n - P.BEFORE_FAR_FRAMES - 1]!;
    const rise = riseOf(after, before);
    if (rise <= 1) continue;
    const product = rises[n]! * rise;
    if (product < RISES_MOST) {
      rises[n] = product;
      continue;
    }
    logs[n] = logs[n]! + Math.log(product);
    rises[n] = 1;
  }
};

/** Ratio of the means behind two sums of energies over the floor: `AFTER_FRAMES` of them, and those of the stretch before. */
export const riseOf = (after: number, before: number): number =>
  (1 + Math.max(0, after) / P.AFTER_FRAMES) / (1 + Math.max(0, before) / (P.BEFORE_FAR_FRAMES - P.BEFORE_NEAR_FRAMES + 1));
