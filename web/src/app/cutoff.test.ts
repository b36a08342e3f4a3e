import { type BlockBody, type DiaryRecord, fold, type KnownKind, recordId, writeRecord } from '@evenhand/core/diary';
import { describe, expect, test } from 'vitest';
import { closing, cutOffIn, daysOver } from './cutoff.ts';

const [YESTERDAY, TODAY] = ['2026-03-10', '2026-03-11'];
let count = 0;
const record = (kind: KnownKind, day: string, body: object, atMs = 0): DiaryRecord =>
  writeRecord({ kind, atMs, zone: 'UTC', day, body } as Parameters<typeof writeRecord>[0], {
    id: recordId(Uint8Array.from({ length: 16 }, (_, k) => (k === 0 ? ++count : 0))),
    ownerId: '0'.repeat(32),
    made: { wallMs: count, counter: 0, deviceId: '0'.repeat(32) },
  });
const session = (day: string, ended: string | null) =>
  record('session', day, { stickingPointId: null, plannedMinutes: 12, endedAtMs: null, ended, reason: null });
const exercise = { id: 'x', family: 'pad', sticking: 'RL', surfaces: ['snare', 'snare'], perBeat: 4, meter: { beats: 4, unit: 4 }, bars: 1 };
const said = { code: 'plan-reason-phrase', params: {} };
const block = ({ id, day }: DiaryRecord, position: number, code = said.code) => {
  const heard = { heard: null, playerSays: null, nextTempo: null };
  const body = {
    sessionId: id,
    position,
    exercise: { ...exercise, title: said, reason: said },
    tempoBpm: 80,
    durationSec: 60,
    takeIds: [],
    ...heard,
  };
  return record(
    'block',
    day,
    { ...body, reason: { code, params: {} } } satisfies Omit<BlockBody, 'exercise'> & { exercise: object },
    1000 * (position + 1),
  );
};
const all = (records: readonly DiaryRecord[]) => new Set(records.map(({ id }) => id));

describe('a session that was cut off', () => {
  test('is found with what is there of it, and goes on with the block after the last one (issue 3)', () => {
    const cut = session(TODAY, null);
    const records = [cut, block(cut, 0), block(cut, 1)];
    expect(cutOffIn(fold(records), all(records))).toMatchObject({
      day: TODAY,
      playedSec: 120,
      nextPosition: 2,
      begun: null,
      ofPlan: true,
      lastAtMs: 2000,
    });
  });

  test('is none while somebody plays it, and none when it has an end', () => {
    const running = session(TODAY, null);
    expect(cutOffIn(fold([running]), new Set())).toBe(null);
    const ended = session(TODAY, 'stopped');
    expect(cutOffIn(fold([ended]), all([ended]))).toBe(null);
  });

  test('of which no block was played to its end begins with the first; one played from the shelf is not the plan’s', () => {
    const cut = session(TODAY, null);
    expect(cutOffIn(fold([cut]), all([cut]))).toMatchObject({ playedSec: 0, nextPosition: 0 });
    const shelf = [cut, block(cut, 0, 'reason-cell')];
    expect(cutOffIn(fold(shelf), all(shelf))).toMatchObject({ ofPlan: false });
  });

  test('that is closed stays as it is, with the end of its last block', () => {
    const cut = session(YESTERDAY, null);
    const records = [cut, block(cut, 0)];
    const drafts = closing(cutOffIn(fold(records), all(records))!, { writtenNow: () => ({ atMs: 9, zone: 'UTC', day: TODAY }) });
    const closed = fold([...records, ...drafts.map(({ body }) => record('edit', TODAY, body))]);
    expect(cutOffIn(closed, all(records))).toBe(null);
    expect(closed.days).toHaveLength(1);
    expect(closed.days[0]).toMatchObject({ day: YESTERDAY, playedSec: 60, sessions: [{ session: { body: { ended: 'stopped', endedAtMs: 1000 } } }] });
  });
});

test('today is not over by a session that was cut off; a day that is past is, by whatever was played on it', () => {
  const [cutToday, cutYesterday] = [session(TODAY, null), session(YESTERDAY, null)];
  const records = [cutToday, block(cutToday, 0), cutYesterday, block(cutYesterday, 0)];
  expect(daysOver(fold(records), TODAY)).toEqual([YESTERDAY]);
  const whole = session(TODAY, 'done');
  expect(daysOver(fold([...records, whole, block(whole, 0)]), TODAY)).toEqual([TODAY, YESTERDAY]);
});
