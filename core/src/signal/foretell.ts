/** How far each sample departs from what the stretch before foretells: least squares linear prediction, learnt anew at every sample. */

export interface ForetellSpec {
  readonly order: number;
  /** Samples the prediction is learnt on, and how many lie between them and the one foretold. */
  readonly learnCount: number;
  readonly gapCount: number;
  /** Share of the mean power added to the diagonal, so that few samples do not teach too much. */
  readonly ridge: number;
}

/**
 * Errors of the prediction, one per sample. The covariance method: unlike the autocorrelation it foretells tones that die away exactly.
 * The first samples, and silence, foretell nothing: there the error is the sample itself.
 * @source [Makhoul1975]
 */
export const foretellErrors = (samples: Float64Array, spec: ForetellSpec): Float64Array => {
  const { order } = spec;
  const products = laggedProducts(samples, spec);
  const errors = Float64Array.from(samples);
  const matrix = new Float64Array(order * order);
  const weights = new Float64Array(order);
  for (let s = order + 2; s < samples.length; s++) {
    if (!fillSystem({ matrix, weights }, { products, s, ridge: spec.ridge }) || !solveCholesky(matrix, weights)) continue;
    let error = samples[s]!;
    for (let i = 0; i < order; i++) error -= weights[i]! * samples[s - 1 - i]!;
    errors[s] = error;
  }
  return errors;
};

/** Row s, column l: Σ x[m]·x[m−l] over the samples m that sample s learns from. Sums slide. */
const laggedProducts = (samples: Float64Array, { order, learnCount, gapCount }: ForetellSpec): Float64Array => {
  const width = order + 1;
  const products = new Float64Array(samples.length * width);
  const sums = new Float64Array(width);
  for (let s = 0; s < samples.length; s++) {
    const newest = s - gapCount - 1;
    const gone = newest - learnCount;
    for (let l = 0; l < width; l++) {
      if (newest >= l) sums[l]! += samples[newest]! * samples[newest - l]!;
      if (gone >= l) sums[l]! -= samples[gone]! * samples[gone - l]!;
      products[s * width + l] = sums[l]!;
    }
  }
  return products;
};

interface System {
  /** Lower half, row by row. */
  readonly matrix: Float64Array;
  /** The right side, and in the end the solution. */
  readonly weights: Float64Array;
}

/** The normal equations at sample s: products of two samples are those of an earlier stretch at a smaller lag. False in silence. */
const fillSystem = (
  { matrix, weights }: System,
  { products, s, ridge }: { readonly products: Float64Array; readonly s: number; readonly ridge: number },
): boolean => {
  const order = weights.length;
  const width = order + 1;
  let power = 0;
  for (let i = 0; i < order; i++) {
    for (let j = 0; j <= i; j++) matrix[i * order + j] = products[(s - 1 - j) * width + i - j]!;
    power += matrix[i * order + i]!;
    weights[i] = products[s * width + i + 1]!;
  }
  power /= order;
  if (!(power > 1e-14)) return false;
  for (let i = 0; i < order; i++) matrix[i * order + i]! += ridge * power + 1e-13;
  return true;
};

/** Solves in place; false where the matrix is not positive. */
const solveCholesky = (matrix: Float64Array, weights: Float64Array): boolean => {
  const n = weights.length;
  if (!factorise(matrix, n)) return false;
  for (let i = 0; i < n; i++) {
    let v = weights[i]!;
    for (let k = 0; k < i; k++) v -= matrix[i * n + k]! * weights[k]!;
    weights[i] = v / matrix[i * n + i]!;
  }
  for (let i = n - 1; i >= 0; i--) {
    let v = weights[i]!;
    for (let k = i + 1; k < n; k++) v -= matrix[k * n + i]! * weights[k]!;
    weights[i] = v / matrix[i * n + i]!;
  }
  return true;
};

const factorise = (matrix: Float64Array, n: number): boolean => {
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let v = matrix[i * n + j]!;
      for (let k = 0; k < j; k++) v -= matrix[i * n + k]! * matrix[j * n + k]!;
      if (i === j && !(v > 0)) return false;
      matrix[i * n + j] = i === j ? Math.sqrt(v) : v / matrix[j * n + j]!;
    }
  }
  return true;
};
