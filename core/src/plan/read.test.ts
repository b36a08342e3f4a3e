/** A plan from JSON: what was written comes back, anything else is refused in words, nothing throws. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { say } from '../words/index.ts';
import { makePlan } from './make.ts';
import { readPlan } from './read.ts';
import { refit } from './refit.ts';
import { PHRASE, SHELF } from './shelf.case.ts';

const PLAN = makePlan({ phrase: PHRASE, goalBpm: 96, exercises: SHELF, weeks: 2, days: [1, 3, 5], minutes: 12, start: '2025-01-06' }).value!;
const copy = () => JSON.parse(JSON.stringify(PLAN));

describe('a plan that was written', () => {
  it('comes back as it was, a refitted one too', () => {
    expect(readPlan(copy()).value).toEqual(PLAN);
    const { plan } = refit(PLAN, { missed: ['2025-01-08'], planId: 'first' });
    expect(readPlan(JSON.parse(JSON.stringify(plan))).value).toEqual(plan);
  });

  it('with sessions alone it still knows its days, and can be refitted', () => {
    const { value } = readPlan({ format: 'plan/1', sessions: copy().sessions });
    expect(value).toMatchObject({ weekdays: [1, 3, 5], away: [], replaces: null });
    expect(refit(value!, { missed: ['2025-01-08'] }).plan.sessions.map(({ date }) => date)).toEqual([
      '2025-01-06',
      '2025-01-10',
      '2025-01-13',
      '2025-01-15',
      '2025-01-17',
      '2025-01-20',
    ]);
  });

  it('keeps fields it does not know, so that what is past stays as it was written', () => {
    const later = copy();
    later.sessions[0].blocks[0].aim.text = 'Loosen up.';
    later.sessions[0].mood = 'good';
    expect(readPlan(later).value!.sessions[0]).toEqual(later.sessions[0]);
  });
});

describe('anything else', () => {
  it.each([
    { name: 'a list', json: [], code: 'plan-not-a-plan' },
    { name: 'nothing', json: null, code: 'plan-not-a-plan' },
    { name: 'a day that does not exist', json: { sessions: [{ ...copy().sessions[0], date: '2025-02-30' }] }, code: 'plan-session-unreadable' },
    { name: 'no blocks', json: { sessions: [{ date: '2025-01-06', minutes: 12 }] }, code: 'plan-session-unreadable' },
    { name: 'minutes that are text', json: { sessions: [{ ...copy().sessions[0], minutes: '12' }] }, code: 'plan-session-unreadable' },
    { name: 'two sessions on a day', json: { sessions: [copy().sessions[0], copy().sessions[0]] }, code: 'plan-day-twice' },
  ])('$name is refused in words', ({ json, code }) => {
    const { value, problems } = readPlan(json);
    expect([value, problems.map((problem) => problem.code)]).toEqual([null, [code]]);
    expect(say(problems[0]!)).toMatch(/\.$/);
  });

  it('never throws (law)', () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.jsonValue(), fc.record({ sessions: fc.array(fc.oneof(fc.jsonValue(), fc.constantFrom(...PLAN.sessions))) })),
        (json) => {
          const { value, problems } = readPlan(json);
          expect(value === null).toBe(problems.length > 0);
        },
      ),
      { seed: 17 },
    );
  });
});
