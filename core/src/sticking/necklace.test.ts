import { expect, test } from 'vitest';
import { leastLoop, leastRotation, longestCyclicRun, loops, necklaces, rotationsOf, swapHands } from './necklace.ts';

const lengths = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12];
const words = (letters: string, length: number): readonly string[] =>
  length === 0 ? [''] : words(letters, length - 1).flatMap((word) => Array.from(letters, (letter) => word + letter));

test.each([
  { says: 'OEIS A000031', count: (n: number) => necklaces('LR', n).length, expected: [2, 3, 4, 6, 8, 14, 20, 36, 60, 108, 188, 352] },
  { says: 'OEIS A000013, up to hand swap', count: (n: number) => loops(n).length, expected: [1, 2, 2, 4, 4, 8, 10, 20, 30, 56, 94, 180] },
  {
    says: 'FACTS.md 8: 3-ary necklaces',
    count: (n: number) => necklaces('KLR', n).length,
    expected: [3, 6, 11, 24, 51, 130, 315, 834, 2195, 5934, 16107, 44368],
  },
  {
    says: 'FACTS.md 8: 4-ary necklaces to 8',
    count: (n: number) => (n > 8 ? -1 : necklaces('HKLR', n).length),
    expected: [4, 10, 24, 70, 208, 700, 2344, 8230, -1, -1, -1, -1],
  },
  {
    says: 'FACTS.md 8: no run over 2, as necklaces up to hand swap (n ≥ 2)',
    count: (n: number) => (n < 2 ? -1 : loops(n).filter((word) => longestCyclicRun(word) <= 2).length),
    expected: [-1, 1, 1, 2, 1, 3, 2, 5, 5, 8, 9, 17],
  },
  {
    says: 'OEIS A001037, primitive necklaces',
    count: (n: number) => necklaces('LR', n).filter((word) => rotationsOf(word).length === n).length,
    expected: [2, 1, 2, 3, 6, 9, 18, 30, 56, 99, 186, 335],
  },
])('$says', ({ count, expected }) => {
  expect(lengths.map(count)).toEqual(expected);
});

test('brute force: every word of 1 to 10 letters falls to exactly one generated necklace', () => {
  for (let length = 1; length <= 10; length++) {
    expect(necklaces('LR', length)).toEqual([...new Set(words('LR', length).map(leastRotation))].sort());
    expect(loops(length)).toEqual([...new Set(words('LR', length).map(leastLoop))].sort());
  }
});

test('FACTS.md 8: the five 8-stroke loops and their rotations', () => {
  const found = loops(8).filter((word) => longestCyclicRun(word) <= 2);
  const expected = { RLRLRLRL: 2, RRLLRRLL: 4, RRLRLLRL: 8, RRLLRLRL: 8, RLRLLRLL: 8 };
  expect([...found].sort()).toEqual(Object.keys(expected).map(leastLoop).sort());
  for (const [word, count] of Object.entries(expected)) expect(rotationsOf(word)).toHaveLength(count);
});

test('FACTS.md 8: the paradiddle begun on each stroke', () => {
  expect(rotationsOf('RLRRLRLL')).toEqual('RLRRLRLL LRRLRLLR RRLRLLRL RLRLLRLR LRLLRLRR RLLRLRRL LLRLRRLR LRLRRLRL'.split(' '));
  expect(leastRotation('RLRRLRLL')).toBe('LLRLRRLR');
  expect(rotationsOf('RLRRLRLL')[4]).toBe(swapHands('RLRRLRLL'));
});

test.each([
  { word: '', run: 0 },
  { word: 'RR', run: Number.POSITIVE_INFINITY },
  { word: 'KRLRLK', run: 2 },
  { word: 'RLLL', run: 3 },
])('arithmetic: the longest run of $word as a loop is $run', ({ word, run }) => {
  expect(longestCyclicRun(word)).toBe(run);
});
