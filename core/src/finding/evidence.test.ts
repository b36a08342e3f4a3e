import { describe, expect, test } from 'vitest';
import { beside, type Column, effectOf, grown, logGamma, logRow, logSum } from './evidence.ts';

/** Data as R's documentation prints them. */
const CARS =
  '4,2 4,10 7,4 7,22 8,16 9,10 10,18 10,26 10,34 11,17 11,28 12,14 12,20 12,24 12,28 13,26 13,34 13,34 13,46 14,26 14,36 14,60 14,80 15,20 15,26 15,54 16,32 16,40 17,32 17,40 17,50 18,42 18,56 18,76 18,84 19,36 19,46 19,68 20,32 20,48 20,52 20,56 20,64 22,66 23,54 24,70 24,92 24,93 24,120 25,85';
const cars = CARS.split(' ').map((pair) => pair.split(',').map(Number));
const [speed, dist] = [cars.map(([x]) => x!), cars.map(([, y]) => y!)];
const x = [10, 8, 13, 9, 11, 14, 6, 4, 12, 7, 5];
const y1 = [8.04, 6.95, 7.58, 8.81, 8.33, 9.96, 7.24, 4.26, 10.84, 4.82, 5.68];
const y2 = [9.14, 8.14, 8.74, 8.77, 9.26, 8.1, 6.13, 3.1, 9.13, 7.26, 4.74];

const column = (values: readonly number[], sigma: number): Column => ({ between: Float64Array.from(values, (value) => value / sigma), within: null });

/** Log Bayes factor of a column beside a constant. */
function logOdds(numbers: readonly number[], values: readonly number[], { sigma, priorSize }: { sigma: number; priorSize: number }): number {
  const basis = grown(
    [],
    column(
      numbers.map(() => 1),
      sigma,
    ),
  );
  return effectOf(beside(column(values, sigma), basis), beside(column(numbers, sigma), basis), { priorSize })!.logOdds;
}

// SciPy's own densities have a constant of variance 1e7 where ours is free: they agree to that, 1e-4 of a nat.
describe('the model choice against SciPy 1.17.1, multivariate_normal.logpdf (figures made by bench/finding/model-choice.py)', () => {
  test.each([
    { model: 'speed', values: speed, priorSize: 5, says: 41.98297 },
    { model: 'speed squared', values: speed.map((v) => v * v), priorSize: 0.2, says: 42.89417 },
    { model: 'above 15 mph', values: speed.map((v) => (v > 15 ? 1 : 0)), priorSize: 30, says: 24.93021 },
  ])('cars (Ezekiel 1930): $model $says', ({ values, priorSize, says }) => {
    expect(logOdds(dist, values, { sigma: 15.38, priorSize })).toBeCloseTo(says, 3);
  });

  test.each([
    { set: 1, y: y1, model: 'x', values: x, priorSize: 1, says: 6.72142 },
    { set: 1, y: y1, model: '(x − 9)²', values: x.map((v) => (v - 9) ** 2), priorSize: 0.2, says: -1.30864 },
    { set: 1, y: y1, model: 'the last alone', values: x.map((v) => (v === 5 ? 1 : 0)), priorSize: 3, says: 0.08003 },
    { set: 2, y: y2, model: 'x', values: x, priorSize: 1, says: 6.71819 },
    { set: 2, y: y2, model: '(x − 9)²', values: x.map((v) => (v - 9) ** 2), priorSize: 0.2, says: 2.73243 },
    { set: 2, y: y2, model: 'the last alone', values: x.map((v) => (v === 5 ? 1 : 0)), priorSize: 3, says: 1.38418 },
  ])('anscombe (1973) set $set: $model $says', ({ y, values, priorSize, says }) => {
    expect(logOdds(y, values, { sigma: 1.237, priorSize })).toBeCloseTo(says, 3);
  });
});

describe('rates', () => {
  test('beta-binomial rows with a flat prior: k of n in a given order has chance k!(n−k)!/(n+1)! (closed form)', () => {
    expect(Math.exp(logRow(2, 1, { hits: 1, others: 1 }))).toBeCloseTo(1 / 12, 9);
    expect(Math.exp(logRow(0, 4, { hits: 1, others: 1 }))).toBeCloseTo(1 / 5, 9);
  });

  test.each([
    { at: 0.5, is: Math.log(Math.sqrt(Math.PI)), says: 'Γ(1/2) = √π' },
    { at: 5, is: Math.log(24), says: 'Γ(5) = 4!' },
    { at: 11, is: Math.log(3628800), says: 'Γ(11) = 10!' },
  ])('log Γ($at): $says', ({ at, is }) => {
    expect(logGamma(at)).toBeCloseTo(is, 9);
  });

  test('sums of exponentials do not overflow (arithmetic)', () => {
    expect(logSum([1000, 1000])).toBeCloseTo(1000 + Math.log(2), 9);
    expect(logSum([])).toBe(Number.NEGATIVE_INFINITY);
  });
});

test('what differs within places and what differs between them add up (closed form: x·y/x·x of both parts)', () => {
  const both: Column = { between: Float64Array.of(1, 2), within: Float64Array.of(0, 3) };
  const numbers: Column = { between: Float64Array.of(2, 4), within: Float64Array.of(5, 6) };
  // (2 + 8 + 18) / (1 + 4 + 9), and a prior so wide that it does not matter.
  expect(effectOf(both, numbers, { priorSize: 1e6 })!.size).toBeCloseTo(2, 9);
  expect(effectOf(both, numbers, { priorSize: 1e6, inflation: 4 })!.error).toBeCloseTo(Math.sqrt(4 / 14), 9);
});
