/** How far the low sound departs from what rang before. Drums ring there in a few tones that can be foretold; a new stroke cannot. */

import { quantileOfSorted } from '../quantiles.ts';
import { decimate, foretellErrors } from '../signal/index.ts';
import * as P from './parameters.ts';

/** Two curves, one value per frame. */
export interface Surprise {
  /** Nats by which the error of the prediction just after stands over that before; falls count nothing. */
  readonly rises: Float32Array;
  /** Nats by which it stands over the noise. */
  readonly heights: Float32Array;
}

/** The surprise of a stretch of sound; 0 in its first frames, which have nothing before them. */
export const surpriseOf = (
  samples: Float32Array,
  { sampleRateHz, hopSamples, frameCount }: { sampleRateHz: number; hopSamples: number; frameCount: number },
): Surprise => {
  const low = decimate(samples, frameCount, { sampleRateHz, step: hopSamples, cutHz: P.LOW_CUT_HZ, reachSteps: P.LOW_REACH_FRAMES });
  const errors = foretellErrors(low, {
    order: P.FORETELL_ORDER,
    learnCount: P.FORETELL_FRAMES,
    gapCount: P.FORETELL_GAP_FRAMES,
    ridge: P.FORETELL_RIDGE,
  });
  return curvesOf(errors.map((error) => error * error));
};

const curvesOf = (powers: Float64Array): Surprise => {
  const sums = new Float64Array(powers.length + 1);
  for (let n = 0; n < powers.length; n++) sums[n + 1] = sums[n]! + powers[n]!;
  const mean = (from: number, to: number) => (sums[to]! - sums[from]!) / (to - from);
  const after = Float64Array.from(powers, (_, n) => mean(n, Math.min(powers.length, n + P.SURPRISE_AFTER_FRAMES)));
  const floor = P.SURPRISE_GUARD * floorOf(after);
  const rises = new Float32Array(powers.length);
  const heights = new Float32Array(powers.length);
  for (let n = P.SURPRISE_BEFORE_FAR_FRAMES; n < powers.length; n++) {
    const before = mean(n - P.SURPRISE_BEFORE_FAR_FRAMES, n - P.SURPRISE_BEFORE_NEAR_FRAMES + 1);
    rises[n] = Math.max(0, Math.log((floor + after[n]!) / (floor + before)));
    heights[n] = Math.log(1 + after[n]! / floor);
  }
  return { rises, heights };
};

/** As the noise floors of the bands: a low quantile over what is not digital silence. */
const floorOf = (powers: Float64Array): number => {
  const sounding = powers.filter((power, n) => n % 4 === 0 && power > 1e-18).sort();
  return Math.max(1e-14, sounding.length > 0 ? quantileOfSorted(sounding, P.FLOOR_QUANTILE) : 0);
};
