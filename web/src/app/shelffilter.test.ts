import { type Exercise, exercisesFor, readContent, readFocus } from '@evenhand/core/exercise';
import type { BlockResult } from '@evenhand/core/progress';
import { readSticking } from '@evenhand/core/sticking';
import { expect, test } from 'vitest';
import { EVERYTHING, familiesOn, narrowed } from './shelffilter.ts';
import { furtherDozen } from './shelffurther.ts';
import { whatIsKnown } from './shelfknown.ts';

const sticking = readSticking('RLRLKK').value!;
const content = readContent(sticking, { perBeat: 4 }).value!;
const focus = readFocus({ first: 4, last: 5 }, sticking).value!;
const shelf = exercisesFor(content, focus).exercises;

test('issue 6: filters by kind, without feet, on one drum; each gives something, what it asks for, in the order of the shelf', () => {
  expect(narrowed(shelf, EVERYTHING)).toEqual(shelf);
  for (const family of familiesOn(shelf)) {
    const found = narrowed(shelf, { ...EVERYTHING, family });
    expect(found).toEqual(shelf.filter((each) => each.family === family));
    expect(found.length).toBeGreaterThan(0);
  }
  const hands = narrowed(shelf, { ...EVERYTHING, withoutFeet: true });
  expect(hands.length).toBeGreaterThan(0);
  for (const each of hands) expect(each.sticking).not.toMatch(/[KH]/);
  const oneDrum = narrowed(shelf, { ...EVERYTHING, oneDrum: true });
  expect(oneDrum.length).toBeGreaterThan(10);
  for (const { surfaces } of oneDrum) expect(new Set(surfaces.filter((drum) => !/kick|foot/.test(drum))).size).toBeLessThanOrEqual(1);
});

const result = (exercise: Exercise, more: Partial<BlockResult>): BlockResult => ({
  ...{ exercise, exerciseId: exercise.id, day: '2027-03-01', tempoBpm: 80, runs: 20, clean: 20, byEar: true, reference: false, weight: 1 },
  ...more,
});

test('what was heard clean and what was not decide the reach, what was done lately comes later', () => {
  const asked = { tempoBpm: 80, today: '2027-03-03', hand: 'R' as const };
  const none = whatIsKnown([], asked);
  // 16ths at 90: 6 kicks a second inside the pair.
  const failed = whatIsKnown([result(shelf.at(-1)!, {}), result({ ...shelf[0]!, ...content }, { tempoBpm: 90, clean: 3 })], asked);
  expect(none.at!.reach!.K[2]).toBeGreaterThan(10);
  expect(failed.at!.reach!.K[2]).toBeCloseTo(6, 9);
  expect(failed.history!.done).toContainEqual({ id: shelf[0]!.id, daysAgo: 2 });
  const again = exercisesFor(content, focus, whatIsKnown([result(shelf[0]!, {})], asked)).exercises;
  expect(again.findIndex(({ id }) => id === shelf[0]!.id)).toBeGreaterThan(8);
  expect(again).toHaveLength(shelf.length);
});

test('issue 6: a dozen more, one step away, again and again, none of it there before, on the drums at hand', () => {
  const first = furtherDozen(content, focus, { there: shelf });
  const second = furtherDozen(content, focus, { there: [...shelf, ...first] });
  expect(new Set([...shelf, ...first, ...second].map(({ id }) => id)).size).toBe(shelf.length + 24);
  for (const { surfaces } of furtherDozen(content, focus, { there: shelf, drums: ['snare', 'kick'] })) {
    expect(new Set(surfaces)).toEqual(new Set(['snare', 'kick']));
  }
});
