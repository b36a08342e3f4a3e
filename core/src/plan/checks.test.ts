/** Closing, checks weeks later, and work begun again: what is past stays, checks keep their distance, twice is once. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, daysBetween, weekdayOf } from '../day.ts';
import { say } from '../words/index.ts';
import { closePlan, reopenPlan, withCheck } from './checks.ts';
import { makePlan } from './make.ts';
import { isCheck, type Plan, type PlanRequest } from './plan.ts';
import { planAgain, refit } from './refit.ts';
import { PHRASE, SHELF } from './shelf.case.ts';

const REQUEST: PlanRequest = { phrase: PHRASE, goalBpm: 96, exercises: SHELF, weeks: 3, days: 4, minutes: 12, start: '2026-03-02' };
const PLAN = makePlan(REQUEST).value!;
const anyDay = fc.nat({ max: 60 }).map((days) => addDays('2026-03-02', days));
const doneBefore = (plan: Plan, today: string) => plan.sessions.map(({ date }) => date).filter((date) => date < today);
const checksOf = ({ sessions }: Plan) => sessions.filter(isCheck);

describe('a phrase that is closed', () => {
  it('is tried again three and eight weeks later, on practice days, three minutes each (says: JOB.md, "again weeks later"; the distances are our choice)', () => {
    fc.assert(
      fc.property(anyDay, (today) => {
        const done = doneBefore(PLAN, today);
        const { plan, changes } = closePlan(PLAN, REQUEST, { today, done });
        const days = checksOf(plan).map(({ date }) => date);
        // The next practice day of four a week is at most three days off, of two that fall together none is lost.
        expect(days.map((day) => Math.floor(daysBetween(today, day) / 7))).toEqual([3, 8]);
        for (const day of days) expect(plan.weekdays).toContain(weekdayOf(day));
        for (const { minutes, blocks } of checksOf(plan)) {
          expect([minutes, blocks.reduce((sum, block) => sum + block.minutes, 0)]).toEqual([3, 3]);
          expect(blocks.at(-1)).toMatchObject({ exerciseId: PHRASE.id, part: 'reference', tempoBpm: 96 });
        }
        expect(plan.sessions.filter((session) => !isCheck(session))).toEqual(PLAN.sessions.filter(({ date }) => done.includes(date)));
        for (const change of changes) expect(say(change)).not.toBe(change.code);
      }),
      { seed: 23, numRuns: 40 },
    );
  });

  it('closing twice is closing once; a check that was missed moves to the next practice day and the other stays', () => {
    const today = '2026-03-12';
    const done = doneBefore(PLAN, today);
    const { plan } = closePlan(PLAN, REQUEST, { today, done });
    expect(closePlan(plan, REQUEST, { today, done }).plan).toEqual(plan);
    const [first, second] = checksOf(plan).map(({ date }) => date);
    const later = addDays(first!, 1);
    const moved = refit(plan, { done, today: later }).plan;
    const [again, still] = checksOf(moved).map(({ date }) => date);
    expect([again! >= later && daysBetween(later, again!) < 7, still]).toEqual([true, second]);
    expect(refit(moved, { done, today: later }).plan).toEqual(moved);
  });

  it('opened again has two weeks of work from what is known, and no check before the next closing', () => {
    const closed = closePlan(PLAN, REQUEST, { today: '2026-03-12', done: doneBefore(PLAN, '2026-03-12') }).plan;
    const today = '2026-04-20';
    const done = doneBefore(PLAN, '2026-03-12');
    const { plan } = reopenPlan(closed, { ...REQUEST, known: [{ exerciseId: PHRASE.id, tempoBpm: 88, days: 6 }] }, { today, done });
    expect(checksOf(plan)).toEqual([]);
    expect(plan.sessions.slice(done.length).map(({ date }) => date >= today)).toEqual(Array(8).fill(true));
    expect(plan.sessions.slice(0, done.length)).toEqual(closed.sessions.slice(0, done.length));
    expect(plan.sessions.at(-1)!.blocks.at(-1)!.tempoBpm).toBeLessThanOrEqual(96);
  });
});

describe('a check after the plan is over', () => {
  const last = PLAN.sessions.at(-1)!.date;

  it('comes on the first practice day from then on, once; none while the plan goes on', () => {
    const from = addDays(last, 10);
    const { plan } = withCheck(PLAN, REQUEST, { from, planId: 'a' });
    expect([checksOf(plan).length, plan.replaces]).toEqual([1, 'a']);
    expect(daysBetween(from, checksOf(plan)[0]!.date)).toBeLessThan(7);
    expect(withCheck(plan, REQUEST, { from }).plan).toBe(plan);
    expect(withCheck(PLAN, REQUEST, { from: last }).plan).toBe(PLAN);
  });

  it('stays a check on its day when the rest is planned again, and when a session before it moves', () => {
    const { plan } = withCheck(PLAN, REQUEST, { from: addDays(last, 10) });
    const [check] = checksOf(plan);
    const today = PLAN.sessions[5]!.date;
    const done = PLAN.sessions.slice(0, 4).map(({ date }) => date);
    for (const after of [planAgain(plan, REQUEST, { done, today }).plan, refit(plan, { done, today }).plan]) {
      expect(checksOf(after)).toEqual([check]);
      expect(after.sessions.length).toBe(plan.sessions.length);
    }
  });
});
