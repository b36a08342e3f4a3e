import { addDays } from '@evenhand/core/day';
import { type BlockBody, type DiaryView, fold, type RecordDraft, type SessionBody, writeRecord } from '@evenhand/core/diary';
import { type BlockResult, resultsOf } from '@evenhand/core/progress';
import { describe, expect, test } from 'vitest';
import { emptyPhrase } from './phrase.ts';
import {
  asWished,
  caughtUp,
  materialOf,
  type PlannedDay,
  planFor,
  plannedAgain,
  plannedDay,
  usualPlan,
  waitsForPlan,
  weeksOf,
  workOf,
} from './planning.ts';
import { knownOf, practisedDays, practisedSinceHurt } from './results.ts';
import { NOTHING_AGREED, planBody, savedExercise, standingPlan } from './savedplan.ts';

const START = '2026-01-05';
const phrase = { ...emptyPhrase, sticking: 'RLRLKK', tempo: '92' };
const material = materialOf(phrase, { first: 4, last: 5 })!;
const plan = planFor(material, usualPlan(START, 92), []).value!;

/** A diary from drafts, each made after the one before. */
function diaryOf(drafts: readonly RecordDraft[]) {
  const maker = (counter: number) => ({
    id: counter.toString(16).padStart(32, '0'),
    ownerId: 'a'.repeat(32),
    made: { wallMs: 0, counter, deviceId: 'b'.repeat(32) },
  });
  return fold(drafts.map((draft, k) => writeRecord(draft, maker(k))));
}
/** Nothing of the plan is played yet. */
const TO_COME = { played: new Map<string, number>(), today: START };
const on = (day: string) => ({ atMs: Date.parse(`${day}T17:00:00Z`), zone: 'UTC', day });
const kept = (exercises = material.exercises) =>
  planBody(plan, { stickingPointId: null, goalBpm: 92, minutes: 12, exercises, agreed: NOTHING_AGREED });
const standing = standingPlan(diaryOf([{ kind: 'plan', ...on(START), body: kept() }]))!;

/** A session of one block in which the player spoke of every round. */
const played = (day: string, rounds: { readonly hadIt: number; readonly again: number }, tempoBpm = 69): readonly RecordDraft[] => {
  const sessionId = day.replaceAll('-', '').padStart(32, 'c');
  const body = { stickingPointId: null, plannedMinutes: 12, endedAtMs: null, ended: 'done', reason: null } as const;
  const says = { heard: null, playerSays: 'hadIt', playerRounds: rounds, nextTempo: null, reason: null } as const;
  const block = { sessionId, position: 0, exercise: savedExercise(material.phrase), tempoBpm, durationSec: 720, takeIds: [], ...says };
  return [
    { kind: 'session', ...on(day), id: sessionId, body },
    { kind: 'block', ...on(day), body: block },
  ];
};

test('the usual plan: five weeks of five days, twelve minutes each, begun today (JOB.md: a usual twelve minutes, some weeks)', () => {
  expect(plan.sessions).toHaveLength(25);
  expect(plan.sessions[0]!.date).toBe(START);
  expect(new Set(plan.sessions.map(({ minutes }) => minutes))).toEqual(new Set([12]));
  expect(weeksOf(plan, TO_COME).map(({ week, sessions }) => [week, sessions.length])).toEqual([1, 2, 3, 4, 5].map((week) => [week, 5]));
});

describe('on a day without a session', () => {
  const [first] = plan.sessions;
  const free = { at: 'free', next: first! } as const;
  const later = {
    at: 'free',
    next: { ...first!, blocks: first!.blocks.map((block) => ({ ...block, reason: { code: 'plan-reason-check', params: {} } })) },
  };

  test.each([
    { says: 'common practice: whoever wants to play, plays', day: free, wish: { oneMore: false, ahead: true }, at: 'session' },
    { says: 'nobody asked', day: free, wish: { oneMore: false, ahead: false }, at: 'free' },
    { says: 'JOB.md 8: again weeks later, so a check stays on its day', day: later, wish: { oneMore: false, ahead: true }, at: 'free' },
    { says: 'there is nothing to play ahead', day: { at: 'free', next: null }, wish: { oneMore: false, ahead: true }, at: 'free' },
  ])('with the wish $wish it is $at: $says', ({ day, wish, at }) => {
    expect(asWished(day as PlannedDay, wish).at).toBe(at);
  });
});

test('families open as it goes: the first week has fewer kinds than the last (issue 3)', () => {
  const weeks = weeksOf(plan, TO_COME);
  const kinds = (week: number) => new Set(weeks[week]!.sessions.flatMap((session) => workOf(session, material.exercises)));
  expect(kinds(0).size).toBeLessThan(new Set([...kinds(3), ...kinds(4)]).size);
});

test('a day that works on the phrase as it stands says so, not that it is begun on another stroke (GLOSSARY.md: inversion)', () => {
  const whole = material.exercises.find(({ title }) => title.code === 'title-whole')!;
  const [session] = plan.sessions.filter(({ blocks }) => blocks.some(({ part, exerciseId }) => part === 'work' && exerciseId === whole.id));
  const only = { ...session!, blocks: session!.blocks.filter(({ exerciseId }) => exerciseId === whole.id) };
  expect(workOf(only, material.exercises)).toEqual(['phrase']);
});

test('a kept plan comes back as it was, with every exercise that it names and no other', () => {
  expect(standing.plan).toEqual(plan);
  const named = new Set(plan.sessions.flatMap(({ blocks }) => blocks.map(({ exerciseId }) => exerciseId)));
  expect(new Set(standing.exercises.map(({ id }) => id))).toEqual(named);
});

test('a day without a session moves it on; what was moved is said once, and the second look changes nothing (issue 3)', () => {
  const [first, second] = plan.sessions;
  const today = addDays(second!.date, 0);
  const moved = caughtUp(standing, { done: [], today })!;
  expect(moved.plan.sessions[0]).toEqual({ ...first!, date: today });
  expect(moved.plan.replaces).toBe(standing.id);
  expect(moved.changes[0]).toEqual({ code: 'plan-session-moved', params: { from: first!.date, to: today, count: 1, until: first!.date } });
  expect(caughtUp({ ...standing, plan: moved.plan }, { done: [], today })).toBe(null);
});

test('today: its session, then that it is played, then the next day for practice', () => {
  expect(plannedDay(plan, { done: [], today: START })).toEqual({ at: 'session', session: plan.sessions[0] });
  const [session, next] = plan.sessions;
  expect(plannedDay(plan, { done: [START], today: START })).toEqual({ at: 'done', next, session });
  // Put aside nothing is proposed; closed, only a check would be.
  for (const state of ['paused', 'closed'] as const) expect(plannedDay(plan, { done: [], today: START, state })).toEqual({ at: 'rest', next: null });
  const last = plan.sessions.at(-1)!.date;
  expect(plannedDay(plan, { done: [], today: addDays(last, 1) })).toEqual({ at: 'free', next: null });
});

test('results by word: a round is one run; one that was never clean starts lower in what is left, and what was played stays as it was', () => {
  const diary = diaryOf(played(START, { hadIt: 0, again: 8 }));
  const results = resultsOf(diary);
  expect(results).toMatchObject([{ clean: 0, runs: 8, byEar: false, day: START, tempoBpm: 69 }]);
  const known = knownOf(results);
  expect(known).toMatchObject([{ exerciseId: material.phrase.id, days: 1 }]);
  expect(known[0]!.tempoBpm).toBeLessThan(69);
  const again = plannedAgain(standing, material, { done: practisedDays(diary), today: START, known })!.plan;
  expect(again.sessions[0]).toEqual(plan.sessions[0]);
  const useOf = (session: (typeof plan.sessions)[number]) => session.blocks.find(({ part }) => part === 'use')!;
  expect(useOf(again.sessions[1]!).tempoBpm).toBe(known[0]!.tempoBpm);
  expect(again.replaces).toBe(standing.id);
});

test('planning again with nothing new writes nothing new', () => {
  expect(plannedAgain(standing, material, { done: [], today: START, known: [] })).toBe(null);
});

test('a session that was stopped before anything was played is no practice', () => {
  const body = { stickingPointId: null, plannedMinutes: 12, endedAtMs: 0, ended: 'hurt', reason: null } as const;
  expect(practisedDays(diaryOf([{ kind: 'session', ...on(START), body }]))).toEqual([]);
});

test('a session whose page was closed before the plan was made again waits for it until it is, and then no more (seen in five simulated weeks)', () => {
  const planned = { kind: 'plan', ...on(START), body: kept() } as const;
  const [session, { kind, body, ...at }] = played(START, { hadIt: 0, again: 8 }) as [RecordDraft, RecordDraft & { kind: 'block'; body: BlockBody }];
  const block = { kind, ...at, body: { ...body, reason: { code: 'plan-reason-phrase', params: {} } } };
  const waits = (...drafts: readonly RecordDraft[]) => {
    const diary = diaryOf(drafts);
    return waitsForPlan(diary, diary.plan!);
  };
  expect(waits(planned)).toBe(false);
  expect(waits(planned, session, block)).toBe(true);
  expect(waits(planned, session, block, planned)).toBe(false);
  // From the shelf; not over; hurt.
  expect(waits(planned, session, { kind, ...at, body })).toBe(false);
  const ended = (how: 'hurt' | null) => ({ ...session, body: { ...(session.body as SessionBody), ended: how } }) as RecordDraft;
  expect(waits(planned, ended(null), block)).toBe(false);
  expect(waits(planned, ended('hurt'), block)).toBe(false);
});

test('each past day of the list says what became of it: played, not played, or missed and moved on (issue 3)', () => {
  const [first, second, third, fourth] = plan.sessions;
  const moved = caughtUp(standing, { done: [first!.date], today: third!.date })!.plan;
  const lived = { played: new Map([[first!.date, 11.5]]), today: fourth!.date };
  const [week] = weeksOf(moved, lived);
  expect(week!.days.slice(0, 4).map(({ day, session, playedMin }) => [day, session?.blocks ?? null, playedMin])).toEqual([
    [first!.date, first!.blocks, 11.5],
    [second!.date, null, 0],
    [third!.date, second!.blocks, 0],
    [fourth!.date, third!.blocks, null],
  ]);
  expect(week!.sessions).toEqual(week!.days.flatMap(({ session }) => session ?? []));
});

test('what came apart all the way down is too hard now, and no more so four weeks after it was played last (says: issue 9)', () => {
  const result = (exerciseId: string, day: string, tempoBpm: number, clean = 4) => ({
    ...{ exerciseId, day, tempoBpm, clean, runs: 40, byEar: true, reference: false },
    exercise: {} as BlockResult['exercise'],
  });
  const fell = [61, 51, 43, 36].map((tempoBpm, k) => result('hard', `2026-01-0${k + 1}`, tempoBpm));
  const hardOn = (day: string) => knownOf([...fell, result('other', day, 80, 40)]).find(({ exerciseId }) => exerciseId === 'hard');
  expect(hardOn('2026-01-20')).toMatchObject({ tempoBpm: 31, tooHard: true });
  expect(hardOn('2026-02-02')).toEqual({ exerciseId: 'hard', tempoBpm: 31, days: 4, stuckDays: 0 });
});

test('days of practice since something hurt, that of today not counted (says: JOB.md, pain is never progress)', () => {
  const day = (of: string, ended: 'hurt' | 'done', playedSec = 60) => ({ day: of, playedSec, sessions: [{ session: { body: { ended } } }] });
  const days = [
    day('2026-01-09', 'done'),
    day('2026-01-08', 'done', 0),
    day('2026-01-07', 'done'),
    day('2026-01-05', 'hurt'),
  ] as unknown as DiaryView['days'];
  const sinceOn = (today: string, of = days) => practisedSinceHurt({ days: of }, today);
  expect(['2026-01-05', '2026-01-06', '2026-01-08', '2026-01-10'].map((today) => sinceOn(today))).toEqual([undefined, 0, 1, 2]);
  expect(sinceOn('2026-01-10', days.slice(0, 3))).toBeUndefined();
});
