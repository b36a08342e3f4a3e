/** A low-passed copy of a sound at a much lower rate. */
import { sameInEngines } from './engines.ts';

export interface DecimateSpec {
  readonly sampleRateHz: number;
  /** Samples of the sound per sample of the copy; the copy's sample k stands for sample k·`step`. */
  readonly step: number;
  /** Where the low-pass falls off, Hz. */
  readonly cutHz: number;
  /** Half the length of the filter, in steps. */
  readonly reachSteps: number;
}

/** The first `count` samples of the copy, without delay; what lies outside the sound counts as silence. A Hann-windowed sinc, gain 1 at 0 Hz. */
export const decimate = (samples: Float32Array, count: number, spec: DecimateSpec): Float64Array => {
  const filter = lowPass(spec);
  const half = (filter.length - 1) / 2;
  const copy = new Float64Array(count);
  for (let k = 0; k < count; k++) {
    const from = k * spec.step - half;
    const first = Math.max(0, -from);
    const end = Math.min(filter.length, samples.length - from);
    let sum = 0;
    for (let i = first; i < end; i++) sum += filter[i]! * samples[from + i]!;
    copy[k] = sum;
  }
  return copy;
};

const lowPass = ({ sampleRateHz, step, cutHz, reachSteps }: DecimateSpec): Float64Array => {
  const half = Math.round(reachSteps * step);
  const filter = Float64Array.from({ length: 2 * half + 1 }, (_, i) => {
    const turn = (2 * Math.PI * cutHz * (i - half)) / sampleRateHz;
    const hann = 0.5 + 0.5 * Math.cos((Math.PI * (i - half)) / (half + 1));
    return sameInEngines(hann * (turn === 0 ? 1 : Math.sin(turn) / turn));
  });
  const gain = filter.reduce((sum, v) => sum + v, 0);
  return filter.map((v) => v / gain);
};
