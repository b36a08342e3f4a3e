/** The whole diary as one row of time, and what stands beside days away: held against what was written into an invented diary. */
import { describe, expect, it, test } from 'vitest';
import { addDays } from '../day.ts';
import { fold, type RecordDraft, type SavedExercise, writeRecord } from '../diary/index.ts';
import {
  awayTold,
  awayWritten,
  everyAway,
  isTold,
  laneTempi,
  partOfWhole,
  practisedOf,
  resultsOf,
  shortened,
  tempoCurve,
  wholeDiary,
} from './index.ts';

const FIRST = '2026-01-05';
const dayAt = (n: number): string => addDays(FIRST, n);
const statement = { code: 'x', params: {} };
const exerciseOf = (id: string, sticking: string): SavedExercise => ({
  ...{ id, family: 'pad', sticking, surfaces: [...sticking].map(() => 'snare'), perBeat: 4, meter: { beats: 4, unit: 4 }, bars: 1 },
  ...{ title: statement, reason: statement },
});
const PHRASES = { a: exerciseOf('a', 'RLRL'), b: exerciseOf('b', 'RRLL') } as const;
const when = (n: number) => ({ atMs: Date.parse(`${dayAt(n)}T17:00:00Z`), zone: 'UTC', day: dayAt(n) });
const point = (id: string, n: number, of: keyof typeof PHRASES, state?: { readonly is: 'closed'; readonly day: string }): RecordDraft => ({
  ...{ ...when(n), kind: 'stickingPoint', id },
  body: {
    name: `Phrase ${of}`,
    sticking: PHRASES[of].sticking,
    surfaces: PHRASES[of].surfaces,
    perBeat: 4,
    tempoBpm: 100,
    cell: null,
    ...(state && { state }),
  },
});
const session = (n: number, of: keyof typeof PHRASES, stickingPointId: string, ended: 'done' | 'hurt' = 'done'): readonly RecordDraft[] => {
  const id = `session ${n}`;
  const heard = { ...{ trackedBpm: 80, offsetMs: 0, pairs: [], places: [], findings: [], problems: [] }, cleanRunCount: 17, runCount: 20 };
  const body = {
    sessionId: id,
    position: 0,
    exercise: PHRASES[of],
    tempoBpm: 70 + n / 2,
    durationSec: 300,
    takeIds: [],
    heard,
    playerSays: null,
    nextTempo: null,
  };
  return [
    { ...when(n), kind: 'session', id, body: { stickingPointId, plannedMinutes: 5, endedAtMs: null, ended, reason: null } },
    { ...when(n), kind: 'block', body: { ...body, reason: null } },
  ];
};
const note = (n: number, text: string): RecordDraft => ({ ...when(n), kind: 'note', body: { text, sessionId: null } });
const setup = (n: number, sticks: string): RecordDraft => ({
  ...{ ...when(n), kind: 'setup' },
  body: { sticks, drums: '', pedal: '', heel: '', phonePlace: '' },
});

/** Days 0 to 10 and 21 to 40 of one phrase, a week away, and days 48 to 60 of another. */
const drafts: readonly RecordDraft[] = [
  point('A', 0, 'a', { is: 'closed', day: dayAt(40) }),
  point('B', 48, 'b'),
  ...Array.from({ length: 11 }, (_, n) => session(n, 'a', 'A', n === 10 ? 'hurt' : 'done')).flat(),
  ...Array.from({ length: 20 }, (_, k) => session(21 + k, 'a', 'A')).flat(),
  ...Array.from({ length: 13 }, (_, k) => session(48 + k, 'b', 'B')).flat(),
  note(4, 'Nothing to do with it.'),
  note(9, 'Boxes everywhere.'),
  note(15, 'Still unpacking.'),
  note(21, 'New cellar.'),
  note(30, 'Lesson with Brigitta.'),
  note(31, 'No lessons in August; less and less onward.'),
  setup(0, 'oak'),
  setup(50, 'maple'),
];
const made = (counter: number) => ({ wallMs: 1_790_000_000_000, counter, deviceId: 'd' });
const view = fold(drafts.map((draft, k) => writeRecord(draft, { id: draft.id ?? `r${String(k).padStart(3, '0')}`, ownerId: 'o', made: made(k) })));
const today = dayAt(62);
const results = resultsOf(view);
const whole = wholeDiary(view, results, today)!;

describe('the whole diary (says: what was written into it)', () => {
  it('has a lane for each phrase, from the day it was begun to the day it was closed, or to today', () => {
    expect(whole.lanes.map(({ name, from, to, lastPlayed }) => [name, from, to, lastPlayed])).toEqual([
      ['Phrase a', dayAt(0), dayAt(40), dayAt(40)],
      ['Phrase b', dayAt(48), today, dayAt(60)],
    ]);
    expect([whole.from, whole.to]).toEqual([FIRST, today]);
  });

  it('has days away as every page has them, changes of set-up, and lines that name a lesson', () => {
    expect(whole.away.map(({ from, to, days }) => ({ from, to, days }))).toEqual(everyAway(practisedOf(view), today));
    expect(whole.away.map(({ days }) => days)).toEqual([10, 7]);
    expect(whole.changes).toEqual([{ day: dayAt(50), names: ['sticks'], values: ['maple'] }]);
    expect(whole.lessons.map(({ day }) => day)).toEqual([dayAt(30), dayAt(31)]);
  });

  it('of a part of it has what lies or reaches in, phrases and days away whole', () => {
    const part = partOfWhole(whole, { from: dayAt(15), to: dayAt(30) });
    expect(part.lanes.map(({ name, from }) => [name, from])).toEqual([['Phrase a', dayAt(0)]]);
    expect(part.away.map(({ days }) => days)).toEqual([10]);
    expect([part.from, part.to, part.changes.length, part.lessons.length]).toEqual([dayAt(15), dayAt(30), 0, 1]);
  });

  it('its tempi are those of the picture of the clean tempo, the first and the last day among them', () => {
    const [lane] = whole.lanes;
    const curve = tempoCurve(results, 'a').flatMap(({ day, estimate }) => (estimate.known ? [{ day, median: estimate.median }] : []));
    const told = laneTempi(results, lane!, 10);
    expect(told).toHaveLength(6);
    expect(told[0]!.day).toBe(curve[0]!.day);
    for (const { day, median } of told) expect(curve.find((point) => point.day === day)?.median).toBe(median);
    expect(told.at(-1)!.day).toBe(dayAt(40));
  });

  it('without a phrase that was played there is none', () => {
    expect(wholeDiary(fold([]), [], today)).toBeNull();
  });
});

describe('what stands beside days away (says: what was written into it)', () => {
  const [moved, between] = awayTold(view, whole.away);

  it('lines of the days just before, of the days themselves, and of the day of coming back; what is older is of something else', () => {
    expect(moved).toMatchObject({ before: ['Boxes everywhere.'], meanwhile: ['Still unpacking.'], back: ['New cellar.'], hurt: true, idle: false });
    expect(isTold(moved!)).toBe(true);
  });

  it('where nothing was written nothing stands but that no phrase was worked on, and no reason is made up', () => {
    expect(between).toMatchObject({ before: [], meanwhile: [], back: [], hurt: false, idle: true });
    expect(isTold({ ...between!, idle: false })).toBe(false);
    expect(awayWritten(between!).params).toMatchObject({ days: 7 });
  });
});

test('shortened: the nearest line of each kind, cut to so many letters (arithmetic)', () => {
  const long = {
    from: '',
    to: '',
    days: 9,
    before: ['early', 'just before it all'],
    meanwhile: ['one', 'two'],
    back: ['a', 'b'],
    hurt: false,
    idle: false,
  };
  expect(shortened(long, 8)).toMatchObject({ before: ['just be…'], meanwhile: ['one'], back: ['a'] });
});
