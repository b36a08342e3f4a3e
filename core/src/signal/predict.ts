/** Linear prediction: what a short stretch of sound says about the samples that follow it. */

/** Autocorrelation of `samples[from, to)` at lags 0 … `maxLag`, after a Hann-shaped taper of the edges when `tapered`. */
export const autocorrelation = (samples: ArrayLike<number>, maxLag: number): Float64Array => {
  const lags = new Float64Array(maxLag + 1);
  const n = samples.length;
  for (let lag = 0; lag <= maxLag; lag++) {
    let sum = 0;
    for (let i = lag; i < n; i++) sum += samples[i]! * samples[i - lag]!;
    lags[lag] = sum;
  }
  return lags;
};

/**
 * Levinson-Durbin: coefficients a[0] = 1, a[1 … order] of the prediction error filter e[n] = Σ a[k]·x[n−k].
 * An autocorrelation of silence gives the filter that changes nothing.
 * @param lags autocorrelation at lags 0 … order
 * @source [Makhoul1975]
 */
export const levinsonDurbin = (lags: Float64Array): Float64Array => {
  const order = lags.length - 1;
  const a = new Float64Array(order + 1);
  a[0] = 1;
  let error = lags[0]!;
  for (let i = 1; i <= order && error > 0; i++) {
    let sum = lags[i]!;
    for (let j = 1; j < i; j++) sum += a[j]! * lags[i - j]!;
    const reflection = -sum / error;
    reflect(a, i, reflection);
    error *= 1 - reflection * reflection;
  }
  return a;
};

const reflect = (a: Float64Array, i: number, reflection: number): void => {
  for (let j = 1; j <= i >> 1; j++) {
    const low = a[j]!;
    const high = a[i - j]!;
    a[j] = low + reflection * high;
    if (j !== i - j) a[i - j] = high + reflection * low;
  }
  a[i] = reflection;
};

/** Prediction error of `samples[from, to)` under filter `a`, written into `out` from 0; samples before index 0 count as silence. */
export const predictionError = (samples: ArrayLike<number>, a: Float64Array, span: { from: number; to: number; out: Float64Array }): void => {
  const order = a.length - 1;
  for (let n = span.from; n < span.to; n++) {
    let sum = samples[n]!;
    const deep = Math.min(order, n);
    for (let k = 1; k <= deep; k++) sum += a[k]! * samples[n - k]!;
    span.out[n - span.from] = sum;
  }
};
