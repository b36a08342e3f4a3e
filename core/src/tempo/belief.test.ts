/** The falling curve and Bayes' rule against the worked numbers of FACTS.md 6. */
import { describe, expect, it } from 'vitest';
import { cleanOdds, entropyBits, expectedEntropyBits, logLikelihood, posterior, whereOddsAre } from './belief.ts';

const curve = (lapse: number, threshold = 100) => ({ threshold, slope: 5, lapse });
/** The published numbers have six decimals, the last of them cut or rounded: toBeCloseTo then allows one unit of it. */
const DECIMALS = 6 - Math.log10(2);

describe('falling logistic (says: FACTS.md 6, α = 100, s = 5)', () => {
  it.each([
    { lapse: 0, tempo: 80, odds: 0.982014 },
    { lapse: 0, tempo: 90, odds: 0.880797 },
    { lapse: 0, tempo: 95, odds: 0.731059 },
    { lapse: 0, tempo: 100, odds: 0.5 },
    { lapse: 0, tempo: 105, odds: 0.268941 },
    { lapse: 0, tempo: 110, odds: 0.119203 },
    { lapse: 0.02, tempo: 80, odds: 0.962374 },
    { lapse: 0.02, tempo: 90, odds: 0.863181 },
    { lapse: 0.02, tempo: 95, odds: 0.716437 },
    { lapse: 0.02, tempo: 100, odds: 0.49 },
    { lapse: 0.02, tempo: 110, odds: 0.116819 },
  ])('λ $lapse at $tempo: $odds', ({ lapse, tempo, odds }) => {
    expect(cleanOdds(tempo, curve(lapse))).toBeCloseTo(odds, DECIMALS);
  });

  it.each([
    { lapse: 0, share: 0.75, tempo: 94.506939 },
    { lapse: 0, share: 0.8, tempo: 93.068528 },
    { lapse: 0, share: 0.85, tempo: 91.326995 },
    { lapse: 0, share: 0.9, tempo: 89.013877 },
    { lapse: 0.02, share: 0.8, tempo: 92.541726 },
    { lapse: 0.02, share: 0.85, tempo: 90.61149 },
  ])('λ $lapse: $share of runs are clean at $tempo', ({ lapse, share, tempo }) => {
    expect(whereOddsAre(share, curve(lapse))).toBeCloseTo(tempo, DECIMALS);
  });
});

describe('a result moves what is believed (says: FACTS.md 6, thresholds 90, 100, 110, s = 5, λ = .02)', () => {
  const thresholds = [90, 100, 110];
  const uniform = [1 / 3, 1 / 3, 1 / 3];
  const oddsAt = (tempo: number) => thresholds.map((threshold) => cleanOdds(tempo, curve(0.02, threshold)));
  const after = (prior: readonly number[], tempo: number, clean: boolean) =>
    posterior(
      prior,
      oddsAt(tempo).map((odds) => (clean ? odds : 1 - odds)),
    );
  const meanOf = (weights: readonly number[]) => weights.reduce((sum, weight, i) => sum + weight * thresholds[i]!, 0);

  it.each([
    { name: 'clean at 100', weights: after(uniform, 100, true), expected: [0.079469, 0.333333, 0.587198], mean: 105.077294 },
    { name: 'not clean at 100', weights: after(uniform, 100, false), expected: [0.577243, 0.333333, 0.089424], mean: 95.121815 },
    {
      name: '95 clean, 105 not, 100 clean',
      weights: after(after(after(uniform, 95, true), 105, false), 100, true),
      expected: [0.056853, 0.500655, 0.442491],
      mean: 103.856377,
    },
  ])('$name: $expected, mean $mean', ({ weights, expected, mean }) => {
    for (const [i, weight] of weights.entries()) expect(weight).toBeCloseTo(expected[i]!, DECIMALS);
    expect(meanOf(weights)).toBeCloseTo(mean, DECIMALS);
  });

  it('uncertainty: 1.584963 bits before, 1.269673 after a clean run at 100, 1.297411 after one that is not', () => {
    expect(entropyBits(uniform)).toBeCloseTo(1.584963, DECIMALS);
    expect(entropyBits(after(uniform, 100, true))).toBeCloseTo(1.269673, DECIMALS);
    expect(entropyBits(after(uniform, 100, false))).toBeCloseTo(1.297411, DECIMALS);
  });

  it('the run that tells most is at 100', () => {
    const expected = { 85: 1.503146, 90: 1.41248, 95: 1.322159, 100: 1.283819, 105: 1.312618, 110: 1.396286, 115: 1.485441 };
    for (const [tempo, bits] of Object.entries(expected)) expect(expectedEntropyBits(uniform, oddsAt(Number(tempo)))).toBeCloseTo(bits, DECIMALS);
  });
});

describe('likelihood (says: FACTS.md 6, maximum-likelihood fit with scipy to 10, 9, 7, 3, 1 of 10 at 80 to 120)', () => {
  const trials = [10, 9, 7, 3, 1].map((clean, i) => ({ x: 80 + 10 * i, clean, runs: 10 }));
  const best = { threshold: 105.185203, slope: 6.22663, lapse: 0 };

  it('is e^−18.937430 at α 105.185203, s 6.226630', () => {
    expect(logLikelihood(trials, best)).toBeCloseTo(-18.93743, DECIMALS);
  });

  it('and smaller on every side', () => {
    // A thousandth of the scale: the published tolerance of the fit.
    for (const [threshold, slope] of [
      [0.1, 0],
      [-0.1, 0],
      [0, 0.05],
      [0, -0.05],
    ] as const) {
      expect(logLikelihood(trials, { ...best, threshold: best.threshold + threshold, slope: best.slope + slope })).toBeLessThan(
        logLikelihood(trials, best),
      );
    }
  });

  it('80 % and 85 % of runs are clean at 96.553261 and 94.384484', () => {
    expect([whereOddsAre(0.8, best), whereOddsAre(0.85, best)]).toEqual([expect.closeTo(96.553261, 5), expect.closeTo(94.384484, 5)]);
  });
});
