import { expect, test } from 'vitest';
import { necklaces, readSticking, rotationsOf } from '../sticking/index.ts';
import { choices, groupsOf } from './dynamics.ts';
import { defaultFocus, type Exercise, exercisesFor, type Family, readContent } from './index.ts';
import { orchestrations } from './orchestration.ts';

const upTo = (count: number) => Array.from({ length: count }, (_, i) => i + 1);
const shelfOf = (text: string, families: readonly Family[], perBeat = 4): readonly Exercise[] => {
  const read = readSticking(text).value!;
  return exercisesFor(readContent(read, { perBeat }).value!, defaultFocus(read), { families }).exercises;
};
const titled = (shelf: readonly Exercise[], ...codes: readonly string[]) => shelf.filter(({ title }) => codes.includes(title.code)).length;

/** n! / (k! (n − k)!), by Pascal's rule. */
const choose = (n: number, k: number): number => (k === 0 || k === n ? 1 : choose(n - 1, k - 1) + choose(n - 1, k));
const totient = (n: number): number => upTo(n).filter((k) => upTo(k).every((d) => d === 1 || n % d > 0 || k % d > 0)).length;

test('closed form n! / (k! (n − k)!), OEIS A007318, and brute force over all 2^n words: accents on k of n', () => {
  for (const n of upTo(9)) {
    for (const k of upTo(n)) {
      const made = choices(n, k).map((places) => places.join());
      const forced = Array.from({ length: 2 ** n }, (_, word) => upTo(n).flatMap((i) => ((word >> (i - 1)) & 1 ? [i - 1] : [])));
      expect([...made].sort()).toEqual(
        forced
          .filter((places) => places.length === k)
          .map((places) => places.join())
          .sort(),
      );
      expect(made).toHaveLength(choose(n, k));
    }
  }
});

test('closed form drums^strokes, and brute force by counting in that base: strokes over drums', () => {
  const drums = ['a', 'b', 'c'];
  for (const strokes of upTo(5)) {
    const made = orchestrations(drums, strokes).map((laid) => laid.join(''));
    const forced = Array.from({ length: 3 ** strokes }, (_, n) =>
      n
        .toString(3)
        .padStart(strokes, '0')
        .replaceAll(/\d/g, (digit) => drums[Number(digit)]!),
    );
    expect(made).toEqual(forced);
  }
});

test('closed form (1/n) Σ φ(d) k^(n/d), OEIS A000031 and A001867: loops of two and of three letters', () => {
  for (const letters of ['LR', 'KLR']) {
    for (const n of upTo(9)) {
      const divisors = upTo(n).filter((d) => n % d === 0);
      const expected = divisors.reduce((sum, d) => sum + totient(d) * letters.length ** (n / d), 0) / n;
      expect(necklaces(letters, n)).toHaveLength(expected);
    }
  }
});

test('closed form: the rotations of all loops of n letters are all 2^n words, and the shelf of each has that many beginnings', () => {
  for (const n of [2, 3, 4, 5]) {
    const words = necklaces('LR', n);
    const beginnings = words.map((word) => titled(shelfOf(word, ['inversion']), 'title-whole', 'title-inversion'));
    expect(beginnings).toEqual(words.map((word) => rotationsOf(word).length));
    expect(beginnings.reduce((sum, count) => sum + count, 0)).toBe(2 ** n);
  }
});

test.each([
  { text: 'RLRLKK', n: 6 },
  { text: 'RLL', n: 3 },
  { text: 'RLRRLRLL', n: 8 },
  { text: 'RLRLRLRLRLRL', n: 12 },
])('closed form n and n(n − 1)/2: one accent and two in $text', ({ text, n }) => {
  const shelf = shelfOf(text, ['dynamics']);
  expect([titled(shelf, 'title-accent'), titled(shelf, 'title-accents')]).toEqual([n, (n * (n - 1)) / 2]);
});

test.each([2, 3, 4, 6, 8])('arithmetic: a pair of kicks can begin on each of %i places of the beat, once each', (perBeat) => {
  const places = shelfOf('RLRLKK', ['groove'], perBeat).filter(({ title }) => title.code === 'title-moved-one');
  expect(places).toHaveLength(perBeat);
});

test.each([
  { says: 'counted by hand: RLL RLL KK', slots: 'RLLRLLKK', expected: [3, 3, 2] },
  { says: 'counted by hand: RL RL KK', slots: 'RLRLKK', expected: [2, 2, 2] },
  { says: 'counted by hand: RLK RLK RLK', slots: 'RLKRLKRLK', expected: [3, 3, 3] },
  { says: 'counted by hand: nothing comes twice from the start', slots: 'RRLKL', expected: [5] },
  { says: 'counted by hand: one slot left over is no group', slots: 'RLKRLKR', expected: [7] },
])('$says', ({ slots, expected }) => {
  expect(groupsOf([...slots])).toEqual(expected);
  expect(expected.reduce((sum, length) => sum + length, 0)).toBe(slots.length);
});
