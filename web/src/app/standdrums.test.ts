import { DRUMS } from '@evenhand/core/kit';
import { expect, test } from 'vitest';
import { marksOf } from './standdrums.ts';

test('drums are marked as charts do, each by two letters of its own (common practice, no source)', () => {
  const marks = marksOf(DRUMS.map(({ name }) => name));
  expect(new Set(marks.values()).size).toBe(DRUMS.length);
  for (const mark of marks.values()) expect(mark).toMatch(/^[A-Z]{2}$/);
  expect(['hi-hat', 'snare', 'kick', 'floor-tom'].map((name) => marks.get(name))).toEqual(['HH', 'SD', 'BD', 'FT']);
});

test.each([
  { names: ['tom1', 'tom2'], marks: ['T1', 'T2'] },
  { names: ['djembe-slap', 'djembe-bass'], marks: ['DS', 'DB'] },
  { names: ['cowbell', 'cow'], marks: ['CO', 'CW'] },
  { names: ['hoop', 'hi-hat', 'huhu'], marks: ['HO', 'HH', 'HU'] },
  { names: ['ä', 'ä-ä', 'snare', ''], marks: ['Ä1', 'ÄÄ', 'SD', undefined] },
])('$names are $marks: never two alike (our choice)', ({ names, marks }) => {
  const made = marksOf(names);
  expect(names.map((name) => made.get(name))).toEqual(marks);
});
