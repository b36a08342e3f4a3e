/** Which round is the first clean one at its tempo. */
import type { Heard, SessionBlock } from '@evenhand/core/session';
import { expect, test } from 'vitest';
import { isFirstClean, keepFirstClean } from './firstclean.ts';

const round = (tempoBpm: number, clean: number, runs = 6) => ({ tempoBpm, clean, runs });

test.each([
  { what: 'nothing was played before', before: [], first: false },
  { what: 'all before was slower', before: [round(84, 12, 12)], first: true },
  { what: 'a clean round at this tempo, then one that was not', before: [round(84, 6), round(89, 6), round(89, 5)], first: false },
  { what: 'two of seven rounds at this tempo failed by four runs', before: [round(89, 38, 42)], first: false },
  { what: 'as many runs failed as there were rounds: maybe one in each', before: [round(89, 35, 42)], first: true },
  { what: 'a faster one was clean', before: [round(96, 6)], first: false },
])('a clean round at 89 where $what: $first (says: pigeonhole principle, rounds of six runs)', ({ before, first }) => {
  expect(isFirstClean(round(89, 6), 89, before)).toBe(first);
});

test('of an evening the fastest first clean round of an exercise stays', () => {
  const kept: number[] = [];
  const keep = keepFirstClean({ keep: ({ fromSec }) => kept.push(fromSec), letGo: ({ fromSec }) => kept.splice(kept.indexOf(fromSec), 1) });
  const at = (id: string, tempoBpm: number, fromSec: number) =>
    keep({
      block: { exercise: { id }, tempoBpm, reason: { code: 'plan-reason-phrase', params: {} } } as unknown as SessionBlock,
      heard: { clean: 6, runs: 6 } as Heard,
      before: [round(60, 6)],
      part: { takeId: 't', fromSec, toSec: fromSec + 8 },
    });
  at('kicks', 73, 1);
  at('phrase', 84, 2);
  at('kicks', 77, 3);
  expect(kept).toEqual([2, 3]);
});
