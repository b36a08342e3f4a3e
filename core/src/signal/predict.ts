/** Linear prediction: what a short stretch of sound says about the samples that follow it. */

/** Autocorrelation of `samples` at lags 0 … `maxLag`; four lags are summed at a time, since reading the samples is what takes long. */
export const autocorrelation = (samples: ArrayLike<number>, maxLag: number): Float64Array => {
  const lags = new Float64Array(maxLag + 4);
  for (let lag = 0; lag <= maxLag; lag += 4) sumFourLags(samples, lag, lags);
  return lags.subarray(0, maxLag + 1);
};

const sumFourLags = (samples: ArrayLike<number>, lag: number, lags: Float64Array): void => {
  let [a, b, c, d] = [0, 0, 0, 0];
  for (let i = lag; i < Math.min(samples.length, lag + 3); i++) {
    a += samples[i]! * samples[i - lag]!;
    if (i > lag) b += samples[i]! * samples[i - lag - 1]!;
    if (i > lag + 1) c += samples[i]! * samples[i - lag - 2]!;
  }
  for (let i = lag + 3; i < samples.length; i++) {
    const v = samples[i]!;
    a += v * samples[i - lag]!;
    b += v * samples[i - lag - 1]!;
    c += v * samples[i - lag - 2]!;
    d += v * samples[i - lag - 3]!;
  }
  lags[lag] = a;
  lags[lag + 1] = b;
  lags[lag + 2] = c;
  lags[lag + 3] = d;
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
