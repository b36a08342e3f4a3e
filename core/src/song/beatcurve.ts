/** How suddenly a recording gets louder, all bands together and the low ones alone: what beats are looked for in. */

import { quantile } from '../quantiles.ts';
import { bandPowers, createBandBank } from '../signal/index.ts';
import { BANDS, FLOOR_FACTOR, HOP_SEC, LOCAL_SEC, LOW_BAND_HZ, WINDOW_SEC } from './parameters.ts';

/** Values `HOP_SEC` apart, the first at 0 s; their mean around each is taken off, so that they sum to about nothing. */
export interface BeatCurve {
  readonly all: Float64Array;
  readonly low: Float64Array;
}

/**
 * @param samples one channel, full scale 1.
 * @returns a value for every hop of the recording.
 */
export function beatCurve(samples: Float32Array, sampleRateHz: number): BeatCurve {
  const bank = createBandBank({
    sampleRateHz,
    windowSecs: [WINDOW_SEC],
    lowHz: BANDS.lowHz,
    highHz: BANDS.highHz,
    bandCount: BANDS.count,
  });
  const frameCount = Math.floor(samples.length / sampleRateHz / HOP_SEC);
  const powers = new Float32Array(frameCount * bank.bandCount);
  // A stroke comes up most when a quarter of the window holds it: with the windows set back by as much, the rise is where the stroke is.
  const back = bank.halfSamples / 2;
  for (let n = 0; n < frameCount; n++) {
    bandPowers(bank, samples, { centre: Math.round(n * HOP_SEC * sampleRateHz - back), out: powers, outOffset: n * bank.bandCount });
  }
  const all = new Float64Array(frameCount);
  const low = new Float64Array(frameCount);
  for (let band = 0; band < bank.bandCount; band++) {
    const column = Float64Array.from({ length: frameCount }, (_, n) => powers[n * bank.bandCount + band]!);
    addRises(column, bank.centresHz[band]! <= LOW_BAND_HZ ? [all, low] : [all]);
  }
  return { all: withoutMean(all), low: withoutMean(low) };
}

/** Adds what a band rises by from hop to hop, in nats over its quiet parts; falls count nothing. */
function addRises(powers: Float64Array, into: readonly Float64Array[]): void {
  const floor = Math.max(quantile(powers, 0.1) * FLOOR_FACTOR, 1e-10);
  let before = Math.log1p(powers[0]! / floor);
  for (let n = 1; n < powers.length; n++) {
    const now = Math.log1p(powers[n]! / floor);
    if (now > before) for (const curve of into) curve[n]! += now - before;
    before = now;
  }
}

/** The curve less its mean around each value. */
function withoutMean(curve: Float64Array): Float64Array {
  const reach = Math.round(LOCAL_SEC / HOP_SEC);
  const sums = new Float64Array(curve.length + 1);
  for (let n = 0; n < curve.length; n++) sums[n + 1] = sums[n]! + curve[n]!;
  return curve.map((value, n) => {
    const [from, to] = [Math.max(0, n - reach), Math.min(curve.length, n + reach + 1)];
    return value - (sums[to]! - sums[from]!) / (to - from);
  });
}
