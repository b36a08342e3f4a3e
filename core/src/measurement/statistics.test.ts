import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { median } from '../quantiles.ts';
import { normal, seededRandom } from '../random.ts';
import { normalShare } from './normal.ts';
import { mean, medianInterval, standardDeviation, weightedMedian, wilson } from './statistics.ts';

describe('location and spread (says: FACTS.md 4)', () => {
  const asynchronies = [-12, -8, -5, -3, 0, 2, 40];

  test('asynchronies with one far off: mean 2, SD 17.4069', () => {
    expect(mean(asynchronies)).toBeCloseTo(2, 12);
    expect(standardDeviation(asynchronies)).toBeCloseTo(17.4069, 4);
  });

  test('every resample of {1,2,3}: medians 1, 2, 3 in 7, 13, 7 of 27, means as enumerated', () => {
    const draws = [1, 2, 3].flatMap((a) => [1, 2, 3].flatMap((b) => [1, 2, 3].map((c) => [a, b, c])));
    const counts = (of: (values: readonly number[]) => number, values: readonly number[]) =>
      values.map((value) => draws.filter((draw) => Math.abs(of(draw) - value) < 1e-12).length);
    expect(counts(median, [1, 2, 3])).toEqual([7, 13, 7]);
    expect(counts(mean, [1, 4 / 3, 5 / 3, 2, 7 / 3, 8 / 3, 3])).toEqual([1, 3, 6, 7, 6, 3, 1]);
  });

  test.each([
    { values: [[1, 1]], middle: 1 },
    {
      values: [
        [0, 1],
        [10, 1],
      ],
      middle: 5,
    },
    // Halves of the weights: at 1.5 and 3.5 of 4, so half the weight, 2, is a quarter of the way.
    {
      values: [
        [0, 3],
        [8, 1],
      ],
      middle: 2,
    },
    {
      values: [
        [0, 9],
        [8, 1],
        [3, 0],
      ],
      middle: 0.8,
    },
  ])('of values with weights $values the middle is $middle (arithmetic: each stands at the middle of its own weight)', ({ values, middle }) => {
    expect(weightedMedian(values.map(([value, weight]) => ({ value: value!, weight: weight! })))).toBeCloseTo(middle, 12);
  });

  test('where all weigh alike the weighted median is the median (law)', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 1, maxLength: 9 }), fc.integer({ min: 1, max: 7 }), (values, weight) => {
        expect(weightedMedian(values.map((value) => ({ value, weight })))).toBeCloseTo(median(values), 9);
      }),
    );
  });
});

describe('intervals', () => {
  // Wilson bounds to the six digits printed in the table.
  test.each([
    { successes: 17, trials: 20, low: 0.639581, high: 0.947631, says: 'FACTS.md 4' },
    { successes: 8, trials: 10, low: 0.490162, high: 0.943318, says: 'FACTS.md 4' },
    { successes: 10, trials: 10, low: 0.722467, high: 1, says: 'FACTS.md 4' },
    { successes: 0, trials: 0, low: 0, high: 1, says: 'nothing is known of nothing' },
  ])('Wilson $successes of $trials is ($low, $high) (says: $says)', ({ successes, trials, low, high }) => {
    expect(wilson(successes, trials).low).toBeCloseTo(low, 6);
    expect(wilson(successes, trials).high).toBeCloseTo(high, 6);
  });

  // Ranks of the binomial table at 1/2: the largest k with P(X < k) ≤ .025; the ends lie between that rank and the next.
  test.each([
    { count: 5, rank: 0 },
    { count: 6, rank: 1 },
    { count: 9, rank: 2 },
    { count: 20, rank: 6 },
    { count: 50, rank: 18 },
    { count: 100, rank: 40 },
  ])('of $count values the interval begins from rank $rank, before the next (binomial table, from memory)', ({ count, rank }) => {
    const interval = medianInterval(Array.from({ length: count }, (_, i) => i + 1));
    expect(interval === null ? 0 : Math.floor(interval.low)).toBe(rank);
    expect(interval === null ? count + 1 : Math.ceil(interval.high) + rank).toBe(count + 1);
  });

  test('of 6 values 1 to 6 it runs from 1.357 to 5.643 (closed form: Hettmansperger & Sheather 1986, I = .1, λ = .5/1.4)', () => {
    expect(medianInterval([1, 2, 3, 4, 5, 6])!.low).toBeCloseTo(1 + 0.5 / 1.4, 9);
    expect(medianInterval([1, 2, 3, 4, 5, 6])!.high).toBeCloseTo(6 - 0.5 / 1.4, 9);
  });

  test('large counts go on smoothly: 400 by enumeration, 401 by the normal limit, one rank apart at most', () => {
    const lowOf = (count: number) => medianInterval(Array.from({ length: count }, (_, i) => i + 1))!.low;
    expect(Math.abs(lowOf(401) - lowOf(400))).toBeLessThanOrEqual(1);
  });

  test.each([
    { of: 'even', draw: (random: () => number) => random() - 0.5 },
    { of: 'normal', draw: (random: () => number) => normal(random) },
  ])('a 95 % interval holds the true median in 95 % of $of draws (2,000 draws of 20; tolerance 4 standard errors)', ({ draw }) => {
    const random = seededRandom(5);
    let held = 0;
    for (let n = 0; n < 2000; n++) {
      const interval = medianInterval(Array.from({ length: 20 }, () => draw(random)))!;
      if (interval.low <= 0 && interval.high >= 0) held += 1;
    }
    expect(Math.abs(held / 2000 - 0.95)).toBeLessThan(0.0195);
  });
});

test.each([
  { z: -2, share: 0.02275 },
  { z: -1, share: 0.158655 },
  { z: 0, share: 0.5 },
  { z: 1, share: 0.841345 },
  { z: 2, share: 0.97725 },
])('a share $share of a normal distribution lies below $z (says: FACTS.md 6)', ({ z, share }) => {
  // The approximation is good to 1.5e-7; the table gives six digits.
  expect(Math.abs(normalShare(z) - share)).toBeLessThan(1e-6);
});
