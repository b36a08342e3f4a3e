import { expect, test } from 'vitest';
import { readContent } from '../../../core/src/exercise/index.ts';
import { readSticking } from '../../../core/src/sticking/index.ts';
import { type PracticeSheet, practiceSheet } from './paper.ts';

const exercise = (text: string) => ({
  content: readContent(readSticking(text).value!, { perBeat: 4 }).value!,
  title: text,
  reason: 'Because.',
  startBpm: 72,
});
const sheetOf = (count: number, rest: Partial<PracticeSheet> = {}): PracticeSheet => ({
  title: 'The pair',
  exercises: Array.from({ length: count }, () => exercise('RLRLKK')),
  madeMs: Date.UTC(2026, 0, 5),
  ...rest,
});
const textOf = (bytes: Uint8Array): string => Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');
const count = (text: string, part: RegExp): number => [...text.matchAll(part)].length;

test('ISO 32000: a tagged PDF in a language, with a title, a figure with alternative text for each exercise, and its faces inside', async () => {
  const text = textOf(await practiceSheet(sheetOf(2)));
  expect(text).toMatch(/^%PDF-1\.7/);
  expect(text).toMatch(/\/Marked true/);
  expect(text).toMatch(/\/Lang \(en\)/);
  expect(text).toMatch(/\/DisplayDocTitle true/);
  expect(count(text, /\/S \/Figure/g)).toBe(2);
  expect(text).toMatch(/\/Alt \(Right, left, right, left, kick, kick; 4 to the beat\.\)/);
  expect(count(text, /\/FontFile2? /g)).toBeGreaterThanOrEqual(2);
});

test('the same sheet gives the same bytes', async () => {
  expect(await practiceSheet(sheetOf(1))).toEqual(await practiceSheet(sheetOf(1)));
});

test('arithmetic: exercises that no longer fit go to the next page, and an engraving longer than a page goes on over several', async () => {
  const pages = async (sheet: PracticeSheet) => count(textOf(await practiceSheet(sheet)), /\/Type \/Page\b/g);
  const one = await pages(sheetOf(1));
  expect(one).toBe(1);
  expect(await pages(sheetOf(8))).toBeGreaterThan(1);
  // Fifteen bars of 16ths in large type, two beats to a line, are more lines than a page holds.
  const long = sheetOf(1, { large: true, exercises: [exercise('RLRLRLRLRLRLRLK')] });
  expect(await pages(long)).toBeGreaterThan(1);
});

test('a week stands under the exercises, and nothing but it and the exercises is needed', async () => {
  const text = textOf(await practiceSheet(sheetOf(1, { tempoBoxes: false, week: [{ title: 'Monday', lines: ['2 min', '3 min'] }] })));
  expect(count(text, /\/S \/H2/g)).toBe(2);
  expect(count(text, /\/S \/P\b/g)).toBe(3);
});
