import type { DiaryView } from '@evenhand/core/diary';
import { expect, test } from 'vitest';
import { listensAsLastTime } from './listening.ts';

const heard = { takeIds: ['a'], playerSays: null };
const said = { takeIds: [], playerSays: 'hadIt' };
const nothing = { takeIds: [], playerSays: null };
type Body = typeof heard | typeof said | typeof nothing;
/** Days with their sessions in order of time, the latest day first. */
const diary = (...days: readonly (readonly (readonly Body[])[])[]) =>
  ({
    days: days.map((sessions) => ({ sessions: sessions.map((blocks) => ({ blocks: blocks.map((body) => ({ body })) })) })),
  }) as unknown as DiaryView;

test.each([
  { what: 'nothing was played yet', view: diary(), listens: true },
  { what: 'the last session was heard', view: diary([[heard]], [[said]]), listens: true },
  { what: 'the last one went by the player’s word', view: diary([[nothing, said]], [[heard]]), listens: false },
  { what: 'the later of two on a day counts', view: diary([[heard], [said]]), listens: false },
  { what: 'both in one session', view: diary([[said, heard]]), listens: true },
  { what: 'a session that was skipped says nothing', view: diary([[nothing]], [[said]]), listens: false },
])('a session listens as the last one did (JOB.md: it starts without a touch): $what', ({ view, listens }) => {
  expect(listensAsLastTime(view)).toBe(listens);
});
