/** Why the lines of two takes may differ though nothing between them changed for sure. */
import { expect, test } from 'vitest';
import type { KnownRecord } from '../diary/index.ts';
import { say } from '../words/index.ts';
import { linesDiffer } from './index.ts';

const take = (day: string, ...codes: readonly string[]) =>
  ({ day, body: { heard: { findings: codes.map((code) => ({ code, params: {} })) } } }) as unknown as KnownRecord<'block'>;
const NOTHING = [{ code: 'progress-nothing-sure', params: {} }];

test.each([
  ['2026-03-23', ['place-off'], '2026-04-20', ['nothing-stands-out'], 'Monday, 23 March, names a fault and that of Monday, 20 April, none'],
  ['2026-03-23', [], '2026-04-20', ['place-off'], 'Monday, 20 April, names a fault and that of Monday, 23 March, none'],
] as const)('a fault on one day and none on the other (says: an outsider who read a year): %s %s, %s %s', (then, was, now, is, words) => {
  const said = linesDiffer(take(then, ...was), take(now, ...is), NOTHING);
  expect(said.map((one) => say(one)).join()).toContain(words);
});

test.each([
  ['both name one', ['place-off'], ['pair-uneven'], NOTHING],
  ['neither does', ['nothing-stands-out'], [], NOTHING],
  ['something changed for sure', ['place-off'], [], [{ code: 'progress-nearer-in-time', params: {} }]],
] as const)('%s: there is nothing to explain', (_, was, is, said) => {
  expect(linesDiffer(take('2026-03-23', ...was), take('2026-04-20', ...is), said)).toEqual([]);
});
