/** Records for tests: one of each kind, and arbitrary ones. */
import fc from 'fast-check';
import type { DiaryRecord, RecordDraft } from './record.ts';

const when = { atMs: Date.UTC(2026, 0, 5, 17), zone: 'Europe/Berlin', day: '2026-01-05' };
const said = { code: 'because', params: { place: 5 } };

/** One draft of each kind, as a first session leaves them. */
export const DRAFTS: readonly RecordDraft[] = [
  {
    ...when,
    kind: 'stickingPoint',
    id: '0a'.repeat(16),
    body: {
      name: 'the kicks at the end',
      sticking: 'RLRLKK',
      surfaces: ['snare', 'snare', 'snare', 'snare', 'kick', 'kick'],
      perBeat: 6,
      tempoBpm: 96,
      cell: { first: 4, last: 5 },
    },
  },
  {
    ...when,
    kind: 'session',
    id: '0b'.repeat(16),
    body: { stickingPointId: '0a'.repeat(16), plannedMinutes: 3, endedAtMs: null, ended: null, reason: said },
  },
  {
    ...when,
    kind: 'take',
    id: '0c'.repeat(16),
    body: {
      sessionId: '0b'.repeat(16),
      clock: { sampleRateHz: 48000, contextFrame0: 96000, wallMs0: when.atMs, latencySec: 0, latencyFrom: 'unknown' },
      durationSec: 60.5,
      stored: 'pcm',
      clicksSec: [0, 0.625, 1.25],
      strokes: [{ timeSec: 0.002, levelDb: -18.5, confidence: 0.97, drum: 'snare' }],
      problems: [{ code: 'take-clipped', severity: 'doubtful', at: 1.5, params: { clippedCount: 2, strokeShare: 0.1 } }],
    },
  },
  {
    ...when,
    kind: 'block',
    id: '0d'.repeat(16),
    body: {
      sessionId: '0b'.repeat(16),
      position: 0,
      exercise: {
        id: 'e1',
        family: 'inversion',
        sticking: 'KKRLRL',
        surfaces: ['kick', 'kick', 'snare', 'snare', 'snare', 'snare'],
        perBeat: 6,
        meter: { beats: 4, unit: 4 },
        bars: 1,
        title: said,
        reason: said,
      },
      tempoBpm: 90,
      durationSec: 60,
      takeIds: ['0c'.repeat(16)],
      heard: {
        trackedBpm: 90.02,
        offsetMs: -3.1,
        places: [
          {
            index: 0,
            limb: 'K',
            count: 24,
            unsure: false,
            biasMs: -2,
            biasLowMs: -4,
            biasHighMs: 0,
            spreadMs: 5,
            levelDb: -20,
            missed: 0,
            notAudible: 1,
          },
        ],
        pairs: [
          { first: 0, second: 1, limb: 'K', gapMs: 99, gapShare: 0.89, gapLow: 0.8, gapHigh: 0.97, levelStepDb: -5, extraBounces: 0, unsure: false },
        ],
        cleanRunCount: 9,
        runCount: 12,
        findings: [{ ...said, cause: 'pair', indices: [0, 1], weight: 0.6 }],
        problems: [],
      },
      playerSays: null,
      nextTempo: { tempoBpm: 92, reason: said },
      reason: null,
    },
  },
  {
    ...when,
    kind: 'plan',
    id: '1c'.repeat(16),
    body: {
      stickingPointId: '0a'.repeat(16),
      goalBpm: 96,
      minutes: 3,
      replaces: null,
      weekdays: [1, 3],
      away: ['2026-01-03'],
      sessions: [
        {
          date: '2026-01-05',
          minutes: 3,
          blocks: [{ exerciseId: 'e1', part: 'work', minutes: 3, tempoBpm: 72, aim: said, reason: said, tempoReason: said }],
        },
      ],
      exercises: [],
    },
  },
  { ...when, kind: 'note', id: '0e'.repeat(16), body: { text: 'left foot heavy today 🥁 שלום', sessionId: null } },
  { ...when, kind: 'setting', id: '0f'.repeat(16), body: { name: 'cutOverHour', value: 4 } },
  { ...when, kind: 'setup', id: '1a'.repeat(16), body: { sticks: '5A', drums: 'pad', pedal: 'single', heel: 'up', phonePlace: 'on the stand' } },
  {
    ...when,
    kind: 'choice',
    id: '1d'.repeat(16),
    body: {
      exercise: {
        id: 'e2',
        family: 'pad',
        sticking: 'RRLL',
        surfaces: ['snare', 'snare', 'snare', 'snare'],
        perBeat: 4,
        meter: { beats: 4, unit: 4 },
        bars: 1,
        title: said,
        reason: said,
      },
      phraseId: 'e0',
      is: 'kept',
      own: true,
    },
  },
  { ...when, kind: 'edit', id: '1b'.repeat(16), body: { targetId: '0b'.repeat(16), targetV: 1, field: 'body.ended', value: 'done' } },
];

const made = fc.record({ wallMs: fc.integer({ min: 0, max: 9 }), counter: fc.integer({ min: 0, max: 3 }), deviceId: fc.constantFrom('a', 'b') });
const ids = fc.integer({ min: 0, max: 30 }).map((n) => n.toString(16).padStart(32, '0'));
const days = fc.constantFrom('2026-01-05', '2026-01-06', '2026-02-28');

const body = fc.oneof(
  fc.record({ kind: fc.constant('note'), v: fc.constant(1), body: fc.record({ text: fc.string({ unit: 'binary' }), sessionId: fc.option(ids) }) }),
  fc.record({
    kind: fc.constant('session'),
    v: fc.constant(1),
    body: fc.record({
      stickingPointId: fc.constant(null),
      plannedMinutes: fc.nat(60),
      endedAtMs: fc.option(fc.nat()),
      ended: fc.constant(null),
      reason: fc.constant(null),
    }),
  }),
  fc.record({
    kind: fc.constant('setting'),
    v: fc.constant(1),
    body: fc.record({ name: fc.constantFrom('a', 'b'), value: fc.oneof(fc.string(), fc.boolean()) }),
  }),
  fc.record({
    kind: fc.constant('edit'),
    v: fc.constant(1),
    body: fc.record({
      targetId: ids,
      targetV: fc.constant(1),
      field: fc.constantFrom('deleted', 'day', 'body.text', 'body.ended'),
      value: fc.oneof(fc.string(), fc.boolean(), days),
    }),
  }),
  fc.record({ kind: fc.constantFrom('note', 'dream', '__proto__'), v: fc.integer({ min: 0, max: 9 }), body: fc.jsonValue() }),
);

/** Records of known and unknown kinds and versions; ids collide often, as in damaged copies. */
export const anyRecords: fc.Arbitrary<readonly DiaryRecord[]> = fc.array(
  fc
    .tuple(ids, made, days, fc.nat(9), body, fc.dictionary(fc.constantFrom('later', 'more'), fc.jsonValue()))
    .map(([id, stamp, day, atMs, what, extra]) => ({
      ...extra,
      id,
      made: stamp,
      day,
      atMs,
      zone: 'UTC',
      ownerId: 'o',
      ...what,
    })),
  { maxLength: 25 },
);
