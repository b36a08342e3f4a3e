/** How odds fall with tempo, and how a result moves what is believed. */

/** A falling logistic: what share of runs comes out clean at `x` (a tempo or its logarithm; threshold and slope in the same unit). */
export interface OddsCurve {
  /** Where the odds have fallen to half of what they are at ease. */
  readonly threshold: number;
  /** How gradually they fall; positive. */
  readonly slope: number;
  /** Share of runs that fail even at ease. */
  readonly lapse: number;
}

/** Odds of a clean run at `x`: (1 − λ) / (1 + e^((x − α)/s)). @source [Watson2017] in its falling form. */
export const cleanOdds = (x: number, { threshold, slope, lapse }: OddsCurve): number => (1 - lapse) / (1 + Math.exp((x - threshold) / slope));

/** Where the odds are `share`, which must lie below 1 − λ. The inverse of `cleanOdds`. */
export const whereOddsAre = (share: number, { threshold, slope, lapse }: OddsCurve): number =>
  threshold - slope * Math.log(share / (1 - lapse - share));

/** Some runs at one place of the curve; counts may be weighted and need not be whole. */
export interface Trials {
  readonly x: number;
  readonly clean: number;
  readonly runs: number;
}

/** Natural logarithm of how likely the trials are under a curve, without the binomial constants. */
export function logLikelihood(trials: readonly Trials[], curve: OddsCurve): number {
  return trials.reduce((sum, { x, clean, runs }) => {
    const odds = cleanOdds(x, curve);
    return sum + weighted(clean, odds) + weighted(runs - clean, 1 - odds);
  }, 0);
}

/** Nothing counted adds nothing, even where the odds are 0. */
const weighted = (count: number, odds: number): number => (count === 0 ? 0 : count * Math.log(odds));

/** Weights times likelihoods, made to sum to 1: what is believed after a result. @source Bayes' rule */
export function posterior(prior: readonly number[], likelihoods: readonly number[]): readonly number[] {
  const product = prior.map((weight, i) => weight * likelihoods[i]!);
  const sum = product.reduce((total, weight) => total + weight, 0);
  return product.map((weight) => weight / sum);
}

/** Uncertainty of weights that sum to 1, in bits. */
export const entropyBits = (weights: readonly number[]): number =>
  weights.reduce((sum, weight) => (weight > 0 ? sum - weight * Math.log2(weight) : sum), 0);

/**
 * Uncertainty that is expected to be left after one run, in bits: the smaller, the more that run tells.
 * @param prior weight of each hypothesis.
 * @param odds of a clean run under each hypothesis, at the place the run is played.
 * @source [KontsevichTyler1999]
 */
export function expectedEntropyBits(prior: readonly number[], odds: readonly number[]): number {
  const missOdds = odds.map((share) => 1 - share);
  const clean = prior.reduce((sum, weight, i) => sum + weight * odds[i]!, 0);
  return clean * entropyBits(posterior(prior, odds)) + (1 - clean) * entropyBits(posterior(prior, missOdds));
}
