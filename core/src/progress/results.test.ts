import { expect, test } from 'vitest';
import { fold, writeRecord } from '../diary/index.ts';
import { resultsOf } from './results.ts';

const exercise = {
  ...{ id: 'e1', family: 'pad', sticking: 'RLRL', surfaces: ['pad', 'pad', 'pad', 'pad'], perBeat: 4, meter: { beats: 4, unit: 4 }, bars: 1 },
  ...{ title: { code: 'title', params: {} }, reason: { code: 'reason', params: {} } },
};
const heard = { trackedBpm: 72, offsetMs: null, places: [], pairs: [], cleanRunCount: 17, runCount: 22, findings: [], problems: [] };
const body = {
  sessionId: '',
  position: 0,
  exercise,
  tempoBpm: 72,
  durationSec: 60,
  takeIds: [],
  heard,
  playerSays: null,
  nextTempo: null,
  reason: null,
};
const stretches = [
  { tempoBpm: 72, clean: 14, runs: 14, byEar: true },
  { tempoBpm: 76, clean: 3, runs: 8, byEar: true },
];

const resultsWith = (more: object) => {
  const session = { id: '0b'.repeat(16), kind: 'session' as const, day: '2026-01-05', zone: 'UTC', atMs: 0 };
  const ended = { stickingPointId: null, plannedMinutes: 1, endedAtMs: 1, ended: 'done' as const, reason: null };
  const block = { kind: 'block' as const, day: '2026-01-05', zone: 'UTC', atMs: 0, body: { ...body, sessionId: session.id, ...more } };
  const drafts = [{ ...session, body: ended }, block];
  const records = drafts.map((draft, k) =>
    writeRecord(draft, { id: `${k}c`.repeat(16), ownerId: 'o', made: { wallMs: k, counter: 0, deviceId: 'd' } }),
  );
  return resultsOf(fold(records)).map(({ tempoBpm, clean, runs, byEar }) => ({ tempoBpm, clean, runs, byEar }));
};

test('a block at one tempo is one result; one in which the tempo moved a result for each, in turn (docs/formats/diary-records.md)', () => {
  expect(resultsWith({})).toEqual([{ tempoBpm: 72, clean: 17, runs: 22, byEar: true }]);
  expect(resultsWith({ stretches })).toEqual(stretches);
  expect(resultsWith({ stretches: [] })).toHaveLength(1);
});

test('of a block that was cut off what its rounds gave is there, though the whole was never heard', () => {
  expect(resultsWith({ heard: null, unfinished: true, stretches: stretches.slice(0, 1) })).toEqual(stretches.slice(0, 1));
});
