/** Laws of a refit: the past stays, missed sessions move on, twice is once. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, weekdayOf } from '../day.ts';
import { say } from '../words/index.ts';
import { makePlan } from './make.ts';
import { VARIETY_LIMIT } from './parameters.ts';
import type { Plan, PlanRequest } from './plan.ts';
import { planAgain, refit } from './refit.ts';
import { exercise, PHRASE, SHELF } from './shelf.case.ts';

const REQUEST: PlanRequest = { phrase: PHRASE, goalBpm: 96, exercises: SHELF, weeks: 5, days: 5, minutes: 12, start: '2025-01-06' };
const PLAN: Plan = makePlan(REQUEST).value!;
const contentOf = (plan: Plan) => plan.sessions.map(({ blocks }) => blocks);

/** A plan, some of its days missed in a row from one on, and the day on which it comes out. */
const anyMiss = fc
  .record({
    days: fc.integer({ min: 1, max: 7 }),
    weeks: fc.integer({ min: 1, max: 5 }),
    start: fc.nat({ max: 800 }),
    from: fc.nat(),
    count: fc.integer({ min: 1, max: 6 }),
    later: fc.nat({ max: 9 }),
  })
  .map(({ days, weeks, start, from, count, later }) => {
    const plan = makePlan({ ...REQUEST, days, weeks, start: addDays('2024-01-15', start) }).value!;
    const first = from % plan.sessions.length;
    const missed = plan.sessions.slice(first, first + count).map(({ date }) => date);
    const next = plan.sessions[first + count]?.date;
    const latest = addDays(missed.at(-1)!, 1 + later);
    return { plan, missed, today: next !== undefined && next < latest ? next : latest };
  });

const law = (name: string, holds: (given: { plan: Plan; missed: readonly string[]; today: string }) => void) =>
  it(name, () => {
    fc.assert(fc.property(anyMiss, holds), { seed: 5, numRuns: 80 });
  });

describe('laws of a refit', () => {
  law('what was done stays as it was, to the letter', ({ plan, missed, today }) => {
    const past = ({ sessions }: Plan) => sessions.filter(({ date }) => date < today);
    expect(past(refit(plan, { missed, today }).plan)).toEqual(past(plan).filter(({ date }) => !missed.includes(date)));
  });

  law('nothing is lost, doubled or changed in order: the same sessions on other days', ({ plan, missed, today }) => {
    expect(contentOf(refit(plan, { missed, today }).plan)).toEqual(contentOf(plan));
  });

  law('days are kept: practice days only, one session a day, none on a day missed', ({ plan, missed, today }) => {
    const dates = refit(plan, { missed, today }).plan.sessions.map(({ date }) => date);
    expect(dates).toEqual([...new Set(dates)].sort());
    for (const date of dates) expect(plan.weekdays.includes(weekdayOf(date)) && !missed.includes(date)).toBe(true);
  });

  law('twice is once', ({ plan, missed, today }) => {
    const once = refit(plan, { missed, today, planId: 'a' });
    const twice = refit(once.plan, { missed, today, planId: 'a' });
    expect(twice.plan).toEqual(once.plan);
    expect(twice.changes).toEqual([{ code: 'plan-unchanged', params: {} }]);
  });

  law('the variety limit still holds in every seven days', ({ plan, missed, today }) => {
    const { sessions } = refit(plan, { missed, today }).plan;
    for (const { date } of sessions) {
      const week = sessions.filter((other) => other.date >= date && other.date < addDays(date, 7));
      expect(new Set(week.flatMap(({ blocks }) => blocks.map(({ exerciseId }) => exerciseId))).size).toBeLessThanOrEqual(VARIETY_LIMIT.player);
    }
  });

  law('it says what moved and where the plan ends', ({ plan, missed, today }) => {
    const { plan: after, changes } = refit(plan, { missed, today });
    expect(changes.map(({ code }) => code)).toEqual(['plan-session-moved', 'plan-ends-later']);
    expect(changes[0]!.params).toMatchObject({ from: missed[0] });
    expect(changes[1]!.params).toEqual({ from: plan.sessions.at(-1)!.date, to: after.sessions.at(-1)!.date });
  });

  law('told what was done instead of what was missed, it comes out the same', ({ plan, missed, today }) => {
    const done = plan.sessions.map(({ date }) => date).filter((date) => date < today && !missed.includes(date));
    const { sessions } = refit(plan, { done, today }).plan;
    const byMissed = refit(plan, { missed: missed.filter((date) => date < today), today }).plan.sessions;
    expect(sessions).toEqual(byMissed);
  });
});

describe('a missed Monday', () => {
  it('moves on by one practice day, the plan ends one practice day later, and names what it replaces (DESIGN.md)', () => {
    const { plan } = refit(PLAN, { missed: ['2025-01-13'], planId: 'first' });
    expect(plan.replaces).toBe('first');
    expect(plan.sessions.slice(0, 5)).toEqual(PLAN.sessions.slice(0, 5));
    expect(plan.sessions[5]).toEqual({ ...PLAN.sessions[5]!, date: '2025-01-14' });
    expect(plan.sessions.at(-1)!.date).toBe('2025-02-10');
    expect(PLAN.sessions.at(-1)!.date).toBe('2025-02-08');
  });

  it('without anything missed nothing changes, and the plan is the same object', () => {
    expect(refit(PLAN, { missed: ['2025-01-09'], today: '2025-01-10' }).plan).toBe(PLAN);
    expect(refit(PLAN, {}).plan).toBe(PLAN);
  });

  it('a session done today counts, and no second one is put there', () => {
    const { plan } = refit(PLAN, { done: ['2025-01-06', '2025-01-08'], today: '2025-01-08' });
    expect(plan.sessions.filter(({ date }) => date <= '2025-01-08').map(({ date }) => date)).toEqual(['2025-01-06', '2025-01-08']);
    expect(plan.sessions).toHaveLength(PLAN.sessions.length);
  });

  it('a day to be missed next week moves on too', () => {
    const { plan } = refit(PLAN, { missed: ['2025-01-14'], today: '2025-01-07' });
    expect(plan.sessions.map(({ date }) => date)).not.toContain('2025-01-14');
    expect(plan.sessions).toHaveLength(25);
  });
});

describe('planning the rest again', () => {
  const known = [{ exerciseId: PHRASE.id, tempoBpm: 84, days: 4 }];
  const again = planAgain(PLAN, { ...REQUEST, known, minutes: 15 }, { missed: ['2025-01-10'], today: '2025-01-11', planId: 'first' });

  it('keeps what was done, fills the same number of sessions, and uses what is known now', () => {
    expect(again.plan.sessions.slice(0, 3)).toEqual(PLAN.sessions.slice(0, 3));
    expect(again.plan.sessions).toHaveLength(25);
    const later = again.plan.sessions.slice(3);
    expect(later.every(({ minutes }) => minutes === 15)).toBe(true);
    expect(later.flatMap(({ blocks }) => blocks).find(({ exerciseId, part }) => exerciseId === PHRASE.id && part === 'work')!.tempoBpm).toBe(84);
    expect(again.changes.at(-1)).toEqual({ code: 'plan-made-again', params: { sessionCount: 22 } });
  });

  it('goes on from what was begun: the exercise of the first days is not new again', () => {
    const begun = new Set(PLAN.sessions.slice(0, 3).flatMap(({ blocks }) => blocks.map(({ exerciseId }) => exerciseId)));
    const newLater = again.plan.sessions.slice(3).flatMap(({ blocks }) => blocks.filter(({ reason }) => reason.code === 'plan-reason-new'));
    expect(newLater.length).toBeGreaterThan(0);
    for (const { exerciseId } of newLater) expect(begun.has(exerciseId)).toBe(false);
  });

  it('twice is once', () => {
    const happened = { missed: ['2025-01-10'], today: '2025-01-11', planId: 'first' };
    expect(planAgain(again.plan, { ...REQUEST, known, minutes: 15 }, happened).plan).toEqual(again.plan);
  });

  it('takes up an exercise that came to the shelf since', () => {
    const added = exercise('pad', 'RLKRLK');
    const { plan } = planAgain(PLAN, { ...REQUEST, exercises: [added] }, { today: '2025-01-11' });
    expect(plan.sessions.flatMap(({ blocks }) => blocks.map(({ exerciseId }) => exerciseId))).toContain(added.id);
  });
});

it('an exercise that is too hard now rests, another takes its place, and that is said (says: issue 9, 16ths at 11)', () => {
  const hard = PLAN.sessions.flatMap(({ blocks }) => blocks).find(({ exerciseId }) => exerciseId !== PHRASE.id)!.exerciseId;
  const known = [{ exerciseId: hard, tempoBpm: 31, days: 6, tooHard: true }] as const;
  const { plan, changes } = planAgain(PLAN, { ...REQUEST, known }, { today: '2025-01-11' });
  const later = plan.sessions.filter(({ date }) => date >= '2025-01-11');
  expect(later.flatMap(({ blocks }) => blocks).some(({ exerciseId }) => exerciseId === hard)).toBe(false);
  expect(later.every(({ blocks, minutes }) => blocks.reduce((sum, block) => sum + block.minutes, 0) === minutes)).toBe(true);
  expect(changes.map((change) => say(change))).toContain('One exercise is too hard now: it rests for some weeks, and others take its place.');
  expect(planAgain(PLAN, REQUEST, { today: '2025-01-11' }).changes.map(({ code }) => code)).not.toContain('plan-too-hard');
});
