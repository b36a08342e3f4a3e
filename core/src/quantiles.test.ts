/** The one quantile and the one median: against NumPy, SciPy and FACTS.md. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { median, medianAbsoluteDeviation, quantile, quantileOfSorted, robustSpread } from './quantiles.ts';

/** The second set of Anscombe (1973). */
const ANSCOMBE = [9.14, 8.14, 8.74, 8.77, 9.26, 8.1, 6.13, 3.1, 9.13, 7.26, 4.74];
/** An even number of them, one far off. */
const ASYNCHRONIES = [-12, 40, -8, -5, 2, -3, 0, 7];

// Both are double precision and may add up in another order: the last of sixteen digits is free.
const DIGITS = 12;

describe('quantiles as NumPy 2.4.6 gives them unless asked otherwise: method linear, Hyndman & Fan (1996) 7', () => {
  test.each([
    { share: 0, says: 3.1 },
    { share: 0.05, says: 3.92 },
    { share: 0.25, says: 6.695 },
    { share: 0.5, says: 8.14 },
    { share: 0.75, says: 8.95 },
    { share: 0.9, says: 9.14 },
    { share: 1, says: 9.26 },
  ])('eleven values: below $says lies $share of them', ({ share, says }) => {
    expect(quantile(ANSCOMBE, share)).toBeCloseTo(says, DIGITS);
  });

  test.each([
    { share: 0.1, says: -9.2 },
    { share: 0.25, says: -5.75 },
    { share: 0.5, says: -1.5 },
    { share: 0.75, says: 3.25 },
  ])('eight values: below $says lies $share of them', ({ share, says }) => {
    expect(quantile(ASYNCHRONIES, share)).toBeCloseTo(says, DIGITS);
    expect(
      quantileOfSorted(
        [...ASYNCHRONIES].sort((a, b) => a - b),
        share,
      ),
    ).toBe(quantile(ASYNCHRONIES, share));
  });

  test('the middle of an even number lies between the two, and the list stays as it was', () => {
    const given = [...ASYNCHRONIES];
    expect(median(given)).toBe(-1.5);
    expect(given).toEqual(ASYNCHRONIES);
  });

  test('the spread as SciPy 1.17.1 gives it: median_abs_deviation, plain and scaled to a normal one', () => {
    expect(medianAbsoluteDeviation(ANSCOMBE)).toBeCloseTo(0.99, DIGITS);
    // Our factor is cut to seven digits.
    expect(robustSpread(ANSCOMBE)).toBeCloseTo(1.4677761963205462, 6);
  });
});

describe('what FACTS.md 4 works out', () => {
  test('[1,1,2,2,4,6,9] has median 2 and MAD 1', () => {
    expect(median([9, 1, 6, 1, 4, 2, 2])).toBe(2);
    expect(medianAbsoluteDeviation([1, 1, 2, 2, 4, 6, 9])).toBe(1);
  });

  test('asynchronies with one far off: median −3, MAD 5, robust 7.413', () => {
    const values = [-12, -8, -5, -3, 0, 2, 40];
    expect(median(values)).toBe(-3);
    expect(medianAbsoluteDeviation(values)).toBe(5);
    expect(robustSpread(values)).toBeCloseTo(7.413, 3);
  });
});

test('of nothing there is no quantile, no middle and no spread (definition)', () => {
  expect([quantile([], 0.5), quantileOfSorted([], 1), median([]), robustSpread([])]).toEqual([Number.NaN, Number.NaN, Number.NaN, Number.NaN]);
});

const values = fc.array(fc.integer({ min: -500, max: 500 }), { minLength: 1, maxLength: 40 });

test('laws: the median is the quantile of one half; median and spread follow a shift and a stretch', () => {
  fc.assert(
    fc.property(values, fc.integer({ min: -1000, max: 1000 }), (some, by) => {
      const moved = some.map((value) => 2 * value + by);
      expect(median(some)).toBeCloseTo(quantile(some, 0.5), DIGITS);
      expect(median(moved)).toBeCloseTo(2 * median(some) + by, 9);
      expect(robustSpread(moved)).toBeCloseTo(2 * robustSpread(some), 9);
    }),
    { seed: 20_261_126 },
  );
});
