/** Rules for the sound of takes: what must never go does not, whatever the rules, and no figure of the diary hangs on sound. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, addMonths } from '../day.ts';
import { type DiaryRecord, deletionOf, fold, letGoIn, letGoOf } from '../diary/index.ts';
import { comparisonsOf, planThinning, protectedTakes, resultsOf, type ThinningRules, thinningRules } from './index.ts';

const TODAY = '2026-11-25';
const KEEP_ALL: ThinningRules = { months: null, mostMb: null, firstClean: false, ends: 'none' };

interface Played {
  /** Days before today. */
  readonly ago: number;
  readonly exercise?: string;
  readonly reference?: boolean;
  /** Clean runs of ten. */
  readonly clean?: number;
  readonly commented?: boolean;
  readonly bytes?: number;
}

const takeIdOf = (k: number): string => `take-${k}`;

/** A diary in which each was played: a session with a block and its take, perhaps with a line of the take. */
function recordsOf(played: readonly Played[]): readonly DiaryRecord[] {
  return played.flatMap(({ ago, exercise = 'a', reference = false, clean = 0, commented = false }, k) => {
    const day = addDays(TODAY, -ago);
    const envelope = { v: 1, ownerId: 'o', atMs: Date.parse(`${day}T18:00:00Z`) + k, zone: 'UTC', day };
    const record = (n: number, kind: string, id: string, body: object) => ({
      ...envelope,
      kind,
      id,
      body,
      made: { wallMs: k, counter: n, deviceId: 'd' },
    });
    const said = (code: string) => ({ code, params: {} });
    const saved = {
      ...{ id: exercise, family: 'pad', sticking: 'RL', surfaces: ['pad', 'pad'], perBeat: 4, meter: { beats: 4, unit: 4 }, bars: 1 },
      ...{ title: said('title-own'), reason: said('reason-own') },
    };
    const place = (index: number, limb: string) => ({
      ...{ index, limb, count: 20, unsure: false, missed: 0, notAudible: 0, levelDb: -20, spreadMs: 6 },
      ...{ biasMs: k, biasLowMs: k - 2, biasHighMs: k + 2 },
    });
    const heard = {
      ...{ trackedBpm: 90, offsetMs: 0, places: [place(0, 'R'), place(1, 'L')], pairs: [], cleanRunCount: clean, runCount: 10 },
      ...{ findings: [], problems: [] },
    };
    const clock = { sampleRateHz: 44_100, contextFrame0: 0, wallMs0: 0, latencySec: 0, latencyFrom: 'unknown' };
    return [
      record(0, 'session', `s${k}`, { stickingPointId: null, plannedMinutes: 5, endedAtMs: 0, ended: 'done', reason: null }),
      record(1, 'take', takeIdOf(k), { sessionId: `s${k}`, clock, durationSec: 20, stored: 'flac', clicksSec: [], strokes: [], problems: [] }),
      record(2, 'block', `b${k}`, {
        ...{ sessionId: `s${k}`, position: 0, exercise: saved, tempoBpm: 90, durationSec: 20, takeIds: [takeIdOf(k)], playerSays: null },
        ...{ nextTempo: null, heard, reason: said(reference ? 'plan-reason-reference' : 'plan-reason-new') },
      }),
      ...(commented
        ? [record(3, 'note', `n${k}`, { text: 'keep that', sessionId: `s${k}`, part: { takeId: takeIdOf(k), fromSec: 1, toSec: 2 } })]
        : []),
    ];
  }) as readonly DiaryRecord[];
}

const soundsOf = (played: readonly Played[]) => played.map(({ bytes = 1_000_000 }, k) => ({ takeId: takeIdOf(k), byteCount: bytes }));

const thinned = (played: readonly Played[], rules: Partial<ThinningRules>) =>
  planThinning(fold(recordsOf(played)), soundsOf(played), { rules: { ...KEEP_ALL, ...rules }, today: TODAY });

/** A diary after the sound of some takes was let go. */
const letGo = (records: readonly DiaryRecord[], takeIds: readonly string[]): readonly DiaryRecord[] => [
  ...records,
  {
    ...{ v: 1, id: 'thinning', kind: 'thinning', ownerId: 'o', made: { wallMs: 1e6, counter: 0, deviceId: 'd' } },
    ...{ atMs: 1, zone: 'UTC', day: TODAY, body: { takeIds, byteCount: 5 } },
  },
];

describe('what goes', () => {
  it.each([
    { what: 'nothing, unless something is said', rules: {}, goes: [] },
    { what: 'what is older than three months (says: the calendar, 25 August)', rules: { months: 3 }, goes: [0, 1] },
    { what: 'the oldest, until no more than three megabytes are left (arithmetic: of five)', rules: { mostMb: 3 }, goes: [0, 1] },
    { what: 'both: by age, and more by room', rules: { months: 3, mostMb: 2 }, goes: [0, 1, 2] },
  ])('$what', ({ rules, goes }) => {
    const played = [{ ago: 200 }, { ago: 93 }, { ago: 92 }, { ago: 30 }, { ago: 8 }];
    const plan = thinned(played, rules);
    expect(plan.takeIds).toEqual(goes.map(takeIdOf));
    expect(plan.byteCount).toBe(goes.length * 1_000_000);
    expect(plan.stays).toEqual({ takeCount: 5 - goes.length, byteCount: (5 - goes.length) * 1_000_000 });
    expect([plan.fromDay, plan.toDay]).toEqual(
      goes.length === 0 ? [null, null] : [addDays(TODAY, -played[0]!.ago), addDays(TODAY, -played[goes.at(-1)!]!.ago)],
    );
  });

  it('of each exercise the first and the last of a week stay, and those between go (says: the calendar, Mondays)', () => {
    // 2 to 8 March 2026, and 9 March.
    const ago = (day: string) => Math.round((Date.parse(TODAY) - Date.parse(day)) / 86_400_000);
    const played = ['2026-03-02', '2026-03-04', '2026-03-08', '2026-03-09'].map((day) => ({ ago: ago(day) }));
    expect(thinned([...played, { ago: ago('2026-03-04'), exercise: 'b' }], { months: 1, ends: 'week' }).takeIds).toEqual([takeIdOf(1)]);
    expect(thinned(played, { months: 1, ends: 'month' }).takeIds).toEqual([takeIdOf(1), takeIdOf(2)]);
  });

  it('the first take that was clean at a tempo stays, the next ones go (says: JOB.md, 85 of 100)', () => {
    const played = [
      { ago: 90, clean: 8 },
      { ago: 80, clean: 9 },
      { ago: 70, clean: 10 },
    ];
    expect(thinned(played, { months: 1, firstClean: true }).takeIds).toEqual([takeIdOf(0), takeIdOf(2)]);
  });

  it('room that reference takes alone take is told, and they stay', () => {
    const played = [{ ago: 90, reference: true }, { ago: 80, reference: true }, { ago: 70 }];
    expect(thinned(played, { mostMb: 1 })).toMatchObject({ takeIds: [takeIdOf(2)], isOver: true });
  });

  it('rules that are damaged or missing keep every take', () => {
    expect(thinningRules({})).toEqual({ months: null, mostMb: null, firstClean: true, ends: 'month' });
    expect(thinningRules({ keepMonths: 0.5, keepMb: 'much', keepEnds: 'year', keepFirstClean: false })).toEqual({
      ...{ months: null, mostMb: null, firstClean: false, ends: 'month' },
    });
  });
});

const anyPlayed = fc.array(
  fc.record({
    ago: fc.integer({ min: 0, max: 400 }),
    exercise: fc.constantFrom('a', 'b'),
    reference: fc.boolean(),
    clean: fc.integer({ min: 0, max: 10 }),
    commented: fc.boolean(),
    bytes: fc.integer({ min: 0, max: 5_000_000 }),
  }),
  { maxLength: 14 },
);
const anyRules: fc.Arbitrary<ThinningRules> = fc.record({
  months: fc.option(fc.integer({ min: 1, max: 12 })),
  mostMb: fc.option(fc.integer({ min: 1, max: 20 })),
  firstClean: fc.boolean(),
  ends: fc.constantFrom('none', 'week', 'month'),
});

describe('whatever the rules', () => {
  it('reference takes, takes of then and now, with a line of theirs, and of the last seven days never go (law)', () => {
    fc.assert(
      fc.property(anyPlayed, anyRules, (played, rules) => {
        const { takeIds } = thinned(played, rules);
        const view = fold(recordsOf(played));
        const compared = comparisonsOf(view).flatMap(({ blocks }) => blocks.flatMap(({ body }) => body.takeIds));
        const never = played.flatMap(({ ago, reference, commented }, k) => (reference || commented || ago < 7 ? [takeIdOf(k)] : []));
        for (const takeId of [...never, ...compared]) {
          expect(takeIds).not.toContain(takeId);
          expect([...protectedTakes(view, TODAY)]).toContain(takeId);
        }
      }),
      { numRuns: 80, seed: 4 },
    );
  });

  it('every figure is the same before and after, and the same rules let nothing more go (law)', () => {
    fc.assert(
      fc.property(anyPlayed, anyRules, (played, rules) => {
        const records = recordsOf(played);
        const { takeIds } = thinned(played, rules);
        const after = letGo(records, takeIds);
        const [was, is] = [fold(records), fold(after)];
        expect({ ...is, thinnings: [] }).toEqual(was);
        expect(resultsOf(is)).toEqual(resultsOf(was));
        expect(comparisonsOf(is)).toEqual(comparisonsOf(was));
        const left = soundsOf(played).filter(({ takeId }) => !takeIds.includes(takeId));
        expect(planThinning(is, left, { rules, today: TODAY }).takeIds).toEqual([]);
      }),
      { numRuns: 40, seed: 5 },
    );
  });
});

describe('the record of it', () => {
  const records = recordsOf([{ ago: 200 }, { ago: 90 }]);
  const after = letGo(records, [takeIdOf(0)]);

  it('says which takes and when, in the view as in the records', () => {
    expect([...letGoOf(fold(after))]).toEqual([[takeIdOf(0), TODAY]]);
    expect([...letGoIn(after)]).toEqual([...letGoOf(fold(after))]);
  });

  it('taken back, it is as if it had not been', () => {
    const undo = { ...after.at(-1)!, id: 'undo', kind: 'edit', made: { wallMs: 2e6, counter: 0, deviceId: 'd' }, body: deletionOf(after.at(-1)!) };
    expect(letGoOf(fold([...after, undo])).size).toBe(0);
    expect(letGoIn([...after, undo]).size).toBe(0);
  });
});

it.each([
  ['2024-03-31', -1, '2024-02-29'],
  ['2023-03-31', -1, '2023-02-28'],
  ['2026-01-15', -3, '2025-10-15'],
  ['2026-12-31', 2, '2027-02-28'],
])('%s and %i months are %s (says: the Gregorian calendar)', (day, months, other) => {
  expect(addMonths(day, months)).toBe(other);
});
