import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { seededRandom } from '../random.ts';
import { tappedTempo } from './tapped.ts';

const even = (tempoBpm: number, count: number, fromSec = 0) => Array.from({ length: count }, (_, k) => fromSec + (60 * k) / tempoBpm);

describe('a tempo that is tapped', () => {
  test('even taps give their tempo, whenever they begin (law)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 320, noNaN: true }),
        fc.integer({ min: 3, max: 30 }),
        fc.double({ min: 0, max: 1e5, noNaN: true }),
        (bpm, count, from) => {
          expect(tappedTempo(even(bpm, count, from))!.tempoBpm / bpm).toBeCloseTo(1, 6);
        },
      ),
      { numRuns: 100, seed: 4 },
    );
  });

  test.each([
    { says: 'arithmetic: two taps are one interval, which says nothing of how even it was', taps: even(100, 2), tempoBpm: null },
    { says: 'arithmetic: a second between taps is 60', taps: [10, 11, 12], tempoBpm: 60 },
    { says: 'our choice: a pause begins anew', taps: [...even(60, 6), ...even(120, 4, 20)], tempoBpm: 120 },
    { says: 'our choice: after a pause one tap is not enough', taps: [...even(60, 6), 20], tempoBpm: null },
    { says: 'arithmetic: a tap that was not heard is a gap of two', taps: even(100, 9).filter((_, k) => k !== 4), tempoBpm: 100 },
    { says: 'arithmetic: a tap that was heard twice is left out', taps: [...even(100, 4), 1.85, ...even(100, 4, 2.4)], tempoBpm: 100 },
    { says: 'our choice: the latest dozen count, the hand had found it by then', taps: [...even(80, 8), ...even(90, 14, 6)], tempoBpm: 90 },
    { says: 'arithmetic: nothing was tapped', taps: [], tempoBpm: null },
  ])('$says', ({ taps, tempoBpm }) => {
    const told = tappedTempo(taps);
    if (tempoBpm === null) expect(told).toBe(null);
    else expect(told!.tempoBpm).toBeCloseTo(tempoBpm, 6);
  });

  test.each([
    { scatter: 0.02, taps: 4 },
    { scatter: 0.04, taps: 4 },
    { scatter: 0.02, taps: 8 },
    { scatter: 0.04, taps: 8 },
  ])(
    'a tapper whose intervals scatter by $scatter (FACTS.md 2: 2 to 4 %, from memory): $taps taps are as good as the mean of their intervals can be',
    ({ scatter, taps }) => {
      const random = seededRandom(11);
      const normal = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
      const off = Array.from({ length: 400 }, () => {
        let sec = 0;
        const moments = [0, ...Array.from({ length: taps - 1 }, () => (sec += 0.5 * (1 + scatter * normal())))];
        return Math.abs(tappedTempo(moments)!.tempoBpm / 120 - 1);
      });
      // Closed form: the mean of n intervals scatters by 1/√n of one, and 1.645 deviations hold 9 in 10; 400 tappers tell that to a tenth.
      const nineInTen = (1.645 * scatter) / Math.sqrt(taps - 1);
      expect(off.sort((a, b) => a - b)[360]!).toBeLessThan(1.1 * nineInTen);
    },
  );
});
