/** Second-order filters: how one that is published for one sample rate sounds the same at another, and filtering with it. */

/** b[0] + b[1]·z⁻¹ + b[2]·z⁻² over 1 + a[1]·z⁻¹ + a[2]·z⁻². `a[0]` is 1. */
export interface Biquad {
  readonly b: readonly [number, number, number];
  readonly a: readonly [1, number, number];
}

/**
 * The filter of the same response at another sample rate: back through the bilinear transform to the analogue filter it was made of, and forth with
 * that rate, both warped so that the corner of the denominator stays where it is.
 * @param atRateHz sample rate for which `filter` is meant.
 */
export function biquadAt(filter: Biquad, atRateHz: number, sampleRateHz: number): Biquad {
  if (sampleRateHz === atRateHz) return filter;
  const [a0, a1, a2] = filter.a;
  // tan(π·corner/rate): from the denominator's values at z = 1 and z = −1.
  const from = Math.sqrt((a0 + a1 + a2) / (a0 - a1 + a2));
  const to = Math.tan((Math.atan(from) * atRateHz) / sampleRateHz);
  const b = digital(analogue(filter.b, from), to);
  const a = digital(analogue(filter.a, from), to);
  return { b: scaled(b, a[0]), a: [1, a[1] / a[0], a[2] / a[0]] };
}

type Three = readonly [number, number, number];

const scaled = ([x, y, z]: Three, by: number): [number, number, number] => [x / by, y / by, z / by];

/** Coefficients of 1, s, s² for z⁻¹ = (1 − k·s) / (1 + k·s). */
const analogue = ([x, y, z]: Three, k: number): Three => [x + y + z, 2 * k * (x - z), k * k * (x - y + z)];

/** Coefficients of 1, z⁻¹, z⁻² for s = (1 − z⁻¹) / (k·(1 + z⁻¹)). */
const digital = ([one, s, ss]: Three, k: number): Three => {
  const [p, q] = [s / k, ss / (k * k)];
  return [one + p + q, 2 * (one - q), one - p + q];
};

/** Samples filtered from silence on; as many as come in. */
export function filtered(samples: ArrayLike<number>, { b, a }: Biquad): Float64Array {
  const out = new Float64Array(samples.length);
  let [s1, s2] = [0, 0];
  for (let i = 0; i < out.length; i++) {
    const x = samples[i]!;
    const y = b[0] * x + s1;
    s1 = b[1] * x - a[1] * y + s2;
    s2 = b[2] * x - a[2] * y;
    out[i] = y;
  }
  return out;
}
