import { expect, test } from 'vitest';
import { meansStart, meantBy } from './steering.ts';

const press = (key: string, repeat = false) => ({ key, repeat, target: null });

test.each([' ', 'Enter', 'PageDown', 'ArrowRight'])('"%s" starts a session (issue 2: by key or a page-turn pedal)', (key) => {
  expect(meansStart(press(key))).toBe(true);
  expect(meansStart(press(key, true))).toBe(false);
});

test.each([
  [' ', 'playing', 'pause'],
  [' ', 'paused', 'resume'],
  ['PageDown', 'playing', 'skip'],
  ['ArrowRight', 'paused', 'resume'],
  ['PageUp', 'playing', 'pause'],
  ['PageUp', 'paused', 'stop'],
  ['ArrowLeft', 'paused', 'stop'],
  ['x', 'playing', 'dontCount'],
  ['Escape', 'paused', 'stop'],
  ['p', 'playing', 'hurts'],
  ['q', 'playing', null],
  [' ', 'ended', null],
] as const)('"%s" while %s means %s', (key, phase, kind) => {
  expect(meantBy(press(key), phase)).toBe(kind);
});

test.each([
  ['h', 'hadIt'],
  ['ArrowUp', 'hadIt'],
  ['A', 'again'],
  ['ArrowDown', 'again'],
  ['PageDown', 'skip'],
  [' ', 'pause'],
] as const)('"%s" means %s where the word counts, and the word’s letters mean nothing elsewhere (issue 3: by key or pedal)', (key, kind) => {
  expect(meantBy(press(key), 'playing', 'byWord')).toBe(kind);
  if (key === 'h' || key === 'A') expect(meantBy(press(key), 'playing')).toBeNull();
});

test.each([
  ['r', 'repeat'],
  ['+', 'faster'],
  ['ArrowUp', 'faster'],
  ['-', 'slower'],
  ['ArrowDown', 'slower'],
  ['K', 'keep'],
  ['g', 'goOn'],
] as const)('"%s" means %s where no word is asked for (issue 8: by key or pedal)', (key, kind) => {
  expect(meantBy(press(key), 'breather')).toBe(kind);
});

test('a key held down means nothing more', () => {
  expect(meantBy(press('PageDown', true), 'playing')).toBeNull();
});

/** Something that has the focus, as far as selectors of one word tell. */
const focused = (...matching: readonly string[]) =>
  ({ matches: (selector: string) => matching.some((one) => selector.includes(one)) }) as unknown as EventTarget;

test.each([
  { where: 'a button of the players’ panel', target: focused('button', ':not(html'), starts: ['PageDown', 'ArrowRight'] },
  { where: 'a name being typed there', target: focused('input:not(', ':not(html'), starts: ['PageDown'] },
  { where: 'the settings', target: focused('"settings"', ':not(html'), starts: [] },
  { where: 'the screen itself', target: focused(), starts: ['PageDown', 'ArrowRight', 'Enter', ' '] },
])('with the focus on $where the session starts by $starts (says: a pedal is pressed wherever the focus was left)', ({ target, starts }) => {
  const keys = ['PageDown', 'ArrowRight', 'Enter', ' '];
  expect(keys.filter((key) => meansStart({ key, repeat: false, target }))).toEqual(starts);
});
