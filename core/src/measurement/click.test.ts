import { expect, test } from 'vitest';
import { beatOfSec, clickMap, secOfBeat } from './click.ts';

test('beats and seconds of a click, inside and outside it (arithmetic: 120 bpm)', () => {
  const map = clickMap([1, 1.5, 2, 2.5], 118)!;
  expect(secOfBeat(map, 2.5)).toBe(2.25);
  expect(secOfBeat(map, -2)).toBe(0);
  expect(beatOfSec(map, 4)).toBe(6);
});

test.each([
  { what: 'a click left out', clicks: [1, 1.5, 2.5, 3], lastBeat: 4 },
  { what: 'a click on every second beat', clicks: [1, 2, 3, 4], lastBeat: 6 },
  { what: 'two clicks a beat', clicks: [1, 1.25, 1.5, 1.75], lastBeat: 1.5 },
  { what: 'a click told twice', clicks: [1, 1, 1.5, 2], lastBeat: 2 },
])('$what is noticed (arithmetic: 120 bpm)', ({ clicks, lastBeat }) => {
  expect(clickMap(clicks, 120)!.beats.at(-1)).toBe(lastBeat);
});

test('one click is no click', () => expect(clickMap([1], 120)).toBeNull());
