import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type AlignmentCosts, align } from './align.ts';

const lettersCosts = (a: string, b: string): AlignmentCosts => ({
  pair: (i, j) => (a[i] === b[j] ? -1 : 1),
  missing: () => 1,
  extra: () => 1,
});
const timedCosts = (expected: readonly number[], heard: readonly number[], gap = 60): AlignmentCosts => ({
  pair: (i, j) => Math.abs(expected[i]! - heard[j]!),
  missing: () => gap,
  extra: () => gap,
});

describe('letters with match +1, mismatch −1, gap −1 (says: FACTS.md 4, Needleman and Wunsch)', () => {
  test.each([
    { a: 'GCATGCG', b: 'GATTACA', score: 0 },
    { a: 'RLRRLRLL', b: 'RLRLRLL', score: 6 },
    { a: 'RLRRLRLL', b: 'RLRRLLRLL', score: 7 },
  ])('$a against $b scores $score', ({ a, b, score }) => {
    expect(align(a.length, b.length, lettersCosts(a, b)).cost).toBe(0 - score);
  });
});

test('timed strokes, 60 ms a gap: cost 164, the one at 375 missing, the one at 690 extra (says: FACTS.md 4)', () => {
  const expected = [0, 125, 250, 375, 500, 625, 750, 875];
  const heard = [3, 131, 244, 512, 620, 690, 757, 880];
  const { cost, heardOf } = align(expected.length, heard.length, timedCosts(expected, heard));
  expect(cost).toBe(164);
  expect([...heardOf]).toEqual([0, 1, 2, -1, 3, 4, 6, 7]);
});

test('nothing expected or nothing heard: all extra, all missing (arithmetic)', () => {
  expect(align(0, 3, timedCosts([], [1, 2, 3])).cost).toBe(180);
  expect(align(2, 0, timedCosts([1, 2], []))).toEqual({ cost: 120, heardOf: Int32Array.of(-1, -1) });
});

const timesOf = fc.array(fc.integer({ min: 0, max: 400 }), { maxLength: 6 }).map((times) => times.sort((a, b) => a - b));

/** All ways, tried one by one. */
function bruteForce(expected: readonly number[], heard: readonly number[]): number {
  const [first, ...rest] = expected;
  if (first === undefined) return 60 * heard.length;
  const without = 60 + bruteForce(rest, heard);
  return heard.reduce((best, time, j) => Math.min(best, 60 * j + Math.abs(first - time) + bruteForce(rest, heard.slice(j + 1))), without);
}

test('law: as cheap as the cheapest of all ways', () => {
  fc.assert(
    fc.property(timesOf, timesOf, (expected, heard) => {
      expect(align(expected.length, heard.length, timedCosts(expected, heard)).cost).toBe(bruteForce(expected, heard));
    }),
  );
});

test('law: a reach that holds every affordable pair changes nothing', () => {
  fc.assert(
    fc.property(timesOf, timesOf, (expected, heard) => {
      const costs = timedCosts(expected, heard);
      const reach = (i: number): readonly [number, number] => [
        heard.filter((time) => time < expected[i]! - 120).length,
        heard.filter((time) => time <= expected[i]! + 120).length,
      ];
      const bounded = { ...costs, pair: (i: number, j: number) => (costs.pair(i, j) > 120 ? Number.POSITIVE_INFINITY : costs.pair(i, j)), reach };
      expect(align(expected.length, heard.length, bounded).cost).toBe(align(expected.length, heard.length, costs).cost);
    }),
  );
});
