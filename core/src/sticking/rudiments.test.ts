import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { leastRotation } from './necklace.ts';
import { readSticking } from './read.ts';

interface Rudiment {
  readonly no: number;
  readonly name: string;
  readonly cycle: string;
}
const file = new URL('../../../../shared/reference/rudiments/rudiments.json', import.meta.url);
const present = existsSync(file);
if (!present) process.stderr.write('rudiments.test.ts skipped: ../shared/reference/rudiments is not here\n');
const rudiments: readonly Rudiment[] = present ? JSON.parse(readFileSync(file, 'utf8')) : [];

/** That source's accent sign, converted at the door; its graces stand apart from their stroke. */
const converted = (cycle: string): string => cycle.replaceAll('^', '>');
const strokesOf = (no: number) => readSticking(converted(rudiments[no - 1]!.cycle)).value!.strokes;
const mainOf = (no: number): string =>
  strokesOf(no)
    .map(({ limb }) => limb)
    .join('');
/** Graces in small letters, in order of playing. */
const soundingOf = (no: number): string =>
  strokesOf(no)
    .map(({ limb, graces }) => graces.join('').toLowerCase() + limb)
    .join('');
const numbers = Array.from({ length: 40 }, (_, i) => i + 1);
const holding = (word: (no: number) => string, cell: RegExp): readonly number[] => numbers.filter((no) => cell.test(word(no) + word(no)[0]));

describe.skipIf(!present)('the 40 rudiments', () => {
  test('PAS list of 1984: there are 40, and every one reads without a problem', () => {
    expect(rudiments.map(({ no }) => no)).toEqual(numbers);
    for (const { cycle } of rudiments) expect(readSticking(converted(cycle)).problems).toEqual([]);
  });

  test('every letter and accent of the source is kept (sticking sources: FACTS.md 9, many from memory)', () => {
    for (const { no, cycle } of rudiments) {
      expect(soundingOf(no)).toBe(cycle.replaceAll(/[ ^]/g, ''));
      expect(strokesOf(no).filter(({ accent }) => accent)).toHaveLength(cycle.split('^').length - 1);
    }
  });

  test.each([
    { no: 7, count: 5 },
    { no: 8, count: 6 },
    { no: 9, count: 7 },
    { no: 10, count: 9 },
    { no: 11, count: 10 },
    { no: 12, count: 11 },
    { no: 13, count: 13 },
    { no: 14, count: 15 },
    { no: 15, count: 17 },
  ])('PAS list: roll $no has $count strokes on one lead', ({ no, count }) => {
    const length = strokesOf(no).length;
    expect([count, 2 * count]).toContain(length);
  });

  test('FACTS.md 9, computed: the three classes that hold a double of the left hand', () => {
    const adjacent = holding(mainOf, /LL/);
    expect(adjacent).toEqual([5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 22, 24, 25, 26, 29, 30, 32, 33, 35, 36, 37, 38, 39, 40]);
    const nothingBetween = holding(soundingOf, /LL/);
    expect(nothingBetween).toEqual(adjacent.filter((no) => ![29, 32, 33, 38, 39, 40].includes(no)));
    const counting = holding((no) => soundingOf(no).toUpperCase(), /LL/);
    expect(counting).toEqual(numbers.filter((no) => ![1, 2, 3, 4, 29].includes(no)));
  });

  test('FACTS.md 8: the single paradiddle is its loop', () => {
    expect(leastRotation(mainOf(16))).toBe('LLRLRRLR');
  });
});
