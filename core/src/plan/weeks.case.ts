/** An invented diary of four weeks for tests of the page of the weeks: days count from Monday, 5 October 2026. */
import { type DiaryView, draftsByHand, fold, type RecordDraft, type SavedExercise, type SavedHeard, writeRecord } from '../diary/index.ts';

/** The test's own calendar, independent of the one under test: the n-th day from that Monday. */
export const dayAt = (n: number): string => new Date(Date.UTC(2026, 9, 5 + n)).toISOString().slice(0, 10);

export const POINT_ID = '0a'.repeat(16);
const statement = { code: 'x', params: {} };

export const PHRASE: SavedExercise = {
  ...{ id: 'phrase', family: 'pad', sticking: 'RLRLKK', surfaces: ['snare', 'snare', 'snare', 'snare', 'kick', 'kick'], perBeat: 4 },
  ...{ meter: { beats: 4, unit: 4 }, bars: 3, title: statement, reason: statement },
};

/** Heard: the second kick so many ms off, so many of twenty runs clean. */
export const heardAs = (secondKickMs: number, clean: number): SavedHeard => ({
  ...{ trackedBpm: 80, offsetMs: 0, pairs: [], cleanRunCount: clean, runCount: 20, problems: [] },
  places: [...PHRASE.sticking].map((limb, index) => {
    const biasMs = index === 5 ? secondKickMs : 0;
    const bounds = { biasLowMs: biasMs - 2, biasHighMs: biasMs + 2 };
    return { index, limb, count: 30, unsure: false, biasMs, ...bounds, spreadMs: 6, levelDb: -20, missed: 0, notAudible: 0 };
  }),
  findings: [
    {
      ...{ code: 'cause-fits', cause: 'place:5', indices: [5], weight: 1 },
      params: { what: 'place:5', limb: 'K', index: 5, partner: 4, ofDouble: 'second', time: 'early', volume: 'softer', missed: 0 },
    },
  ],
});

export interface Played {
  /** Days from the first Monday. */
  readonly n: number;
  readonly minutes: number;
  readonly tempoBpm?: number;
  readonly heard?: SavedHeard;
  readonly reference?: boolean;
  readonly ended?: 'done' | 'stopped' | 'hurt';
}

export interface Invented {
  readonly played: readonly Played[];
  readonly byHand?: readonly number[];
  readonly missed?: readonly number[];
  readonly state?: { readonly is: 'open' | 'paused' | 'closed'; readonly day: string };
  readonly shapes?: readonly string[];
  readonly more?: readonly RecordDraft[];
}

const when = (n: number) => ({ atMs: Date.UTC(2026, 9, 5 + n, 17), zone: 'UTC', day: dayAt(n) });
const idOf = (n: number, of: string): string => `${of}${String(n).padStart(31, '0')}`;

/** Five days a week, Monday to Friday, for four weeks, eight minutes a day. */
export function invented({ played, byHand = [], missed = [], state, shapes, more = [] }: Invented): DiaryView {
  const reference = { exerciseId: 'phrase', part: 'reference', minutes: 8, tempoBpm: 80 };
  const block = { ...reference, aim: statement, reason: { code: 'plan-reason-reference', params: { week: 1 } }, tempoReason: statement };
  const weekdays = Array.from({ length: 28 }, (_, n) => n).filter((n) => n % 7 < 5);
  const drafts: readonly RecordDraft[] = [
    {
      ...{ ...when(0), kind: 'stickingPoint', id: POINT_ID },
      body: {
        ...{ name: 'The kicks at the end', sticking: PHRASE.sticking, surfaces: PHRASE.surfaces, perBeat: 4, tempoBpm: 80, cell: null },
        ...(state ? { state } : {}),
        ...(shapes ? { shapes } : {}),
      },
    },
    {
      ...{ ...when(0), kind: 'plan' },
      body: {
        ...{ stickingPointId: POINT_ID, goalBpm: 96, minutes: 8, replaces: null, weekdays: [1, 2, 3, 4, 5], away: missed.map(dayAt) },
        sessions: weekdays.filter((n) => !missed.includes(n)).map((n) => ({ date: dayAt(n), minutes: 8, blocks: [block] })),
        exercises: [PHRASE],
      },
    },
    ...played.flatMap(sessionDrafts),
    ...byHand.flatMap((n) => draftsByHand({ ...when(n), minutes: 20, note: null }, idOf(n, 'b'))),
    ...more,
  ];
  const made = (counter: number) => ({ wallMs: 1_790_000_000_000, counter, deviceId: 'bb'.repeat(16) });
  return fold(drafts.map((draft, k) => writeRecord(draft, { id: draft.id ?? idOf(k, 'd'), ownerId: 'aa'.repeat(16), made: made(k) })));
}

function sessionDrafts({ n, minutes, tempoBpm = 80, heard, reference = false, ended = 'done' }: Played): readonly RecordDraft[] {
  const id = idOf(n, 'c');
  return [
    {
      ...{ ...when(n), kind: 'session', id },
      body: { stickingPointId: POINT_ID, plannedMinutes: 8, endedAtMs: when(n).atMs + minutes * 60_000, ended, reason: null },
    },
    {
      ...{ ...when(n), kind: 'block' },
      body: {
        ...{ sessionId: id, position: 0, exercise: PHRASE, tempoBpm, durationSec: minutes * 60, takeIds: [], heard: heard ?? null },
        ...{ playerSays: null, nextTempo: null, reason: reference ? { code: 'plan-reason-reference', params: { week: 1 } } : null },
      },
    },
  ];
}
