/** A place is held against strokes that are written like it, and against no other. */
import { expect, test } from 'vitest';
import { expectedCycle, readContent } from '../exercise/index.ts';
import type { Place } from '../measurement/index.ts';
import { readSticking } from '../sticking/index.ts';
import { againstAlikeDb } from './againstalike.ts';

const againstAlike = (text: string, levelsDb: readonly (number | null)[]) => {
  const cycle = expectedCycle(readContent(readSticking(text).value!, { perBeat: 4 }).value!);
  const places = levelsDb.map((levelDb, index) => ({ index, levelDb }) as Place);
  return cycle.strokes.map(({ index }) => againstAlikeDb(index, { places }, cycle));
};

test.each([
  { says: 'each hand against the middle of the other three', text: 'RLRL', levels: [-20, -21, -26, -20], told: [1, -1, -6, 1] },
  { says: 'accents against accents, taps against taps', text: '>RL>RL', levels: [-14, -24, -17, -22], told: [3, -2, -3, 2] },
  { says: 'a ghost or an accent that has no like is not compared', text: '>RL(R)L', levels: [-12, -22, -34, -20], told: [null, -2, null, 2] },
  { says: 'another drum is not compared', text: 'RLKK', levels: [-20, -22, -5, -8], told: [2, -2, 3, -3] },
  { says: 'nor what was not heard', text: 'RLR', levels: [-20, null, -23], told: [3, null, -3] },
])('$says (arithmetic): $text', ({ text, levels, told }) => {
  expect(againstAlike(text, levels)).toEqual(told);
});
