/** An invented diary for tests: a drummer in a theatre pit, two evenings, a line by hand, a record from a version to come, one short take. */
import { type DiaryRecord, draftsByHand, type RecordDraft, writeRecord } from '@evenhand/core/diary';
import { seededRandom } from '@evenhand/core/random';
import { renderStrokes } from '@evenhand/core/sound';
import { encodeFlac } from '../flac/index.ts';
import type { BackupTake } from './write.ts';

/** Ids of the invented diary: small numbers. */
export const idOf = (n: number): string => n.toString(16).padStart(32, '0');
const OWNER = 'd0'.repeat(16);
const DEVICE = 'de'.repeat(16);
const FIRST_EVENING = { atMs: Date.UTC(2026, 1, 3, 16, 30), zone: 'Europe/Vienna', day: '2026-02-03' };
const SECOND_EVENING = { atMs: Date.UTC(2026, 1, 5, 16, 40), zone: 'Europe/Vienna', day: '2026-02-05' };
const BETWEEN = { atMs: Date.UTC(2026, 1, 4, 11), zone: 'Europe/Vienna', day: '2026-02-04' };

const TAKE_ID = idOf(0x7a4e);
const SAMPLE_RATE_HZ = 44100;
const STROKES = [
  { timeSec: 0.05, surface: 'snare', levelDb: -22 },
  { timeSec: 0.155, surface: 'snare', levelDb: -24 },
  { timeSec: 0.259, surface: 'kick', levelDb: -20 },
  { timeSec: 0.348, surface: 'kick', levelDb: -27 },
] as const;

const said = (code: string) => ({ code, params: {} });

const block = (sessionId: string, position: number, playerSays: 'hadIt' | 'again'): RecordDraft => ({
  ...FIRST_EVENING,
  kind: 'block',
  body: {
    sessionId,
    position,
    exercise: {
      id: 'c0'.repeat(16),
      family: 'inversion',
      sticking: 'KKRLRL',
      surfaces: ['kick', 'kick', 'snare', 'snare', 'snare', 'snare'],
      perBeat: 6,
      meter: { beats: 4, unit: 4 },
      bars: 1,
      title: said('exercise-title-inversion'),
      reason: said('exercise-reason-inversion'),
    },
    tempoBpm: 84 + 2 * position,
    durationSec: 180,
    takeIds: position === 0 ? [TAKE_ID] : [],
    heard: null,
    playerSays,
    nextTempo: null,
    reason: null,
  },
});

const DRAFTS: readonly RecordDraft[] = [
  {
    ...FIRST_EVENING,
    kind: 'stickingPoint',
    id: idOf(1),
    body: {
      name: 'two kicks before the curtain',
      sticking: 'RLRLKK',
      surfaces: ['snare', 'snare', 'snare', 'snare', 'kick', 'kick'],
      perBeat: 6,
      tempoBpm: 96,
      cell: { first: 4, last: 5 },
    },
  },
  {
    ...FIRST_EVENING,
    kind: 'session',
    id: idOf(2),
    body: { stickingPointId: idOf(1), plannedMinutes: 12, endedAtMs: FIRST_EVENING.atMs + 720_000, ended: 'done', reason: null },
  },
  {
    ...FIRST_EVENING,
    kind: 'take',
    id: TAKE_ID,
    body: {
      sessionId: idOf(2),
      clock: { sampleRateHz: SAMPLE_RATE_HZ, contextFrame0: 0, wallMs0: FIRST_EVENING.atMs, latencySec: 0, latencyFrom: 'unknown' },
      durationSec: 0.5,
      stored: 'pcm',
      clicksSec: [],
      strokes: STROKES.map(({ timeSec, levelDb, surface }) => ({ timeSec, levelDb, confidence: 0.9, drum: surface })),
      problems: [],
    },
  },
  block(idOf(2), 0, 'again'),
  block(idOf(2), 1, 'hadIt'),
  { ...FIRST_EVENING, kind: 'note', body: { text: '=second kick "swallowed",\nlouder with heel up', sessionId: idOf(2) } },
  ...draftsByHand({ ...BETWEEN, minutes: 20, note: 'Pad in the dressing room, no tool 🥁' }, idOf(3)),
  { ...SECOND_EVENING, kind: 'note', body: { text: 'מחר הצגה כפולה — ‏20:00', sessionId: null } },
  { ...SECOND_EVENING, kind: 'setup', body: { sticks: '5B', drums: 'pit kit', pedal: 'single', heel: 'up', phonePlace: 'music stand' } },
  { ...SECOND_EVENING, kind: 'setting', body: { name: 'cutOverHour', value: 5 } },
  { ...SECOND_EVENING, kind: 'edit', body: { targetId: idOf(2), targetV: 1, field: 'body.plannedMinutes', value: 13 } },
];

/** A record of a kind and a version that this program does not know. */
const FROM_LATER: DiaryRecord = {
  ...SECOND_EVENING,
  v: 9,
  id: idOf(0xfe),
  kind: 'curtain call',
  ownerId: OWNER,
  made: { wallMs: SECOND_EVENING.atMs, counter: 99, deviceId: DEVICE },
  body: { bows: [1, 2, { half: '\ud83e', ['__proto__']: 'own' }], zero: 0, small: 1e-7, ünknown: 'ü' },
};

/** The diary's records in order of making. */
export const pitRecords: readonly DiaryRecord[] = [
  ...DRAFTS.map((draft, i) =>
    writeRecord(draft, { id: idOf(0x100 + i), ownerId: OWNER, made: { wallMs: draft.atMs, counter: i, deviceId: DEVICE } }),
  ),
  FROM_LATER,
];

/** Its one take: half a second, four strokes of our own synthesised drums, the second kick early and soft. */
export async function pitTakes(): Promise<readonly BackupTake[]> {
  const samples = renderStrokes(STROKES, { sampleRateHz: SAMPLE_RATE_HZ, durationSec: 0.5, random: seededRandom(3) });
  const asRecorded = samples.map((sample) => Math.round(sample * 2 ** 15) / 2 ** 15);
  return [{ takeId: TAKE_ID, flac: await encodeFlac(asRecorded, SAMPLE_RATE_HZ) }];
}
