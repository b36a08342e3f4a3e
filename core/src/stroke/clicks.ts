/** Takes the click's bleed out of a recording: its sound is the same every time, what the drummer plays at it is not. */
import { median } from '../signal/index.ts';
import * as P from './parameters.ts';

/**
 * The samples without the click that sounds at each of `clickTimesSec`; what is common to all of them (the median, sample by sample) is
 * taken for the click. Fewer than eight clicks change nothing, and the samples come back as they are.
 */
export const withoutClicks = (samples: Float32Array, sampleRateHz: number, clickTimesSec: readonly number[]): Float32Array => {
  const before = Math.round(P.CLICK_BEFORE_SEC * sampleRateHz);
  const length = Math.round(P.CLICK_SEC * sampleRateHz);
  const starts = clickTimesSec
    .map((sec) => Math.round(sec * sampleRateHz) - before)
    .filter((start) => start >= 0 && start + length <= samples.length);
  if (starts.length < P.CLICKS_NEEDED) return samples;
  const click = Float32Array.from({ length }, (_, i) => median(starts.map((start) => samples[start + i]!)));
  const clean = samples.slice();
  for (const start of starts) {
    for (let i = 0; i < length; i++) clean[start + i] = clean[start + i]! - click[i]!;
  }
  return clean;
};
