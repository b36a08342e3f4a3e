/** Plans over zones, clock changes and ten years: no day lost or doubled, the past as it was, quickly enough. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, daysBetween, weekdayOf } from '../day.ts';
import { practiceDay } from '../diary/index.ts';
import { type ExerciseResult, readyToClose, tempoCurve } from '../progress/index.ts';
import { makePlan } from './make.ts';
import type { Plan, PlanRequest } from './plan.ts';
import { planAgain, refit } from './refit.ts';
import { PHRASE, SHELF } from './shelf.case.ts';

const REQUEST: PlanRequest = { phrase: PHRASE, goalBpm: 96, exercises: SHELF, weeks: 5, days: 7, minutes: 12, start: '2026-01-05' };

describe('zones and clock changes (says: IANA zones, a session each evening at 19 by the player’s own clock)', () => {
  it.each([
    { zone: 'Europe/Berlin', change: '2026-03-29', beforeUtcHour: 18, afterUtcHour: 17 },
    { zone: 'Europe/Berlin', change: '2026-10-25', beforeUtcHour: 17, afterUtcHour: 18 },
    { zone: 'America/New_York', change: '2026-03-08', beforeUtcHour: 24, afterUtcHour: 23 },
    { zone: 'Australia/Lord_Howe', change: '2026-04-05', beforeUtcHour: 8, afterUtcHour: 8.5 },
  ])('$zone over $change: every day of the plan is lived once, and nothing has to move', ({ zone, change, beforeUtcHour, afterUtcHour }) => {
    const start = addDays(change, -5);
    const plan = makePlan({ ...REQUEST, start, weeks: 2 }).value!;
    const lived = plan.sessions.map(({ date }) => {
      const hour = date < change ? beforeUtcHour : afterUtcHour;
      return practiceDay(Date.parse(`${date}T00:00:00Z`) + hour * 3_600_000, zone, 4);
    });
    expect(lived).toEqual(plan.sessions.map(({ date }) => date));
    expect(refit(plan, { done: lived, today: addDays(lived.at(-1)!, 1) }).plan).toBe(plan);
  });

  it('a session after midnight belongs to the evening before, and a flight west over midnight doubles no day', () => {
    const late = practiceDay(Date.parse('2026-03-29T00:30:00Z'), 'Europe/Berlin', 4);
    const arrived = practiceDay(Date.parse('2026-03-29T20:00:00Z'), 'America/New_York', 4);
    expect([late, arrived]).toEqual(['2026-03-28', '2026-03-29']);
    const plan = makePlan({ ...REQUEST, start: '2026-03-28', weeks: 1 }).value!;
    const { plan: after } = refit(plan, { done: [late, arrived], today: '2026-03-30' });
    expect(after.sessions.map(({ date }) => date)).toEqual(plan.sessions.map(({ date }) => date));
  });
});

describe('ten years', () => {
  const DAYS = 3650;
  const first = '2016-01-04';

  it('of plans, made again every week: what was done is never rewritten, one session a day, on practice days only', () => {
    const weekdays = [1, 2, 4, 5, 6] as const;
    const request = { ...REQUEST, days: weekdays, weeks: 6, start: first, exercises: SHELF.slice(0, 6) };
    let plan: Plan = makePlan(request).value!;
    const kept: string[] = [];
    for (let week = 0; week * 7 < DAYS; week += 26) {
      // Half a year: six weeks of sessions, those of every fourth week missed, the rest planned anew for later.
      const today = addDays(first, week * 7);
      const done = plan.sessions.map(({ date }) => date).filter((date) => date < today && daysBetween(first, date) % 28 < 21);
      const before = JSON.stringify(plan.sessions.filter(({ date }) => done.includes(date)));
      const again = planAgain(plan, request, { done, today }).plan;
      expect(JSON.stringify(again.sessions.filter(({ date }) => done.includes(date)))).toBe(before);
      expect(planAgain(again, request, { done, today }).plan.sessions).toEqual(again.sessions);
      plan = again;
      kept.push(...done);
    }
    const dates = plan.sessions.map(({ date }) => date);
    expect(new Set(dates).size).toBe(dates.length);
    for (const date of dates) expect((weekdays as readonly number[]).includes(weekdayOf(date))).toBe(true);
    expect(kept.length).toBeGreaterThan(0);
  });

  it('of results: the last figures come from the last weeks, and old clean days still count towards closing', () => {
    const results: ExerciseResult[] = Array.from({ length: DAYS / 10 }, (_, k) => ({
      exerciseId: PHRASE.id,
      day: addDays(first, 10 * k),
      tempoBpm: 60 + Math.floor(k / 10),
      runs: 20,
      clean: 17,
    }));
    const last = tempoCurve(results.slice(-40), PHRASE.id).at(-1)!;
    // 17 of 20 clean at 96: by definition the clean tempo is near it; 5 % either way.
    expect(last.estimate.known && Math.abs(last.estimate.median / 96 - 1)).toBeLessThan(0.05);
    const chosen = [{ exerciseId: PHRASE.id, family: 'use' as const, goalBpm: 70 }];
    expect(readyToClose({ phrase: { exerciseId: PHRASE.id, goalBpm: 70 }, chosen, results }).ready).toBe(true);
  });
});

describe('any zone, any week of ten years (laws)', () => {
  // Zones with clock changes of an hour and half an hour, odd offsets, and none at all; none that moved over the date line since 2015.
  const ZONES = [
    ...['Europe/Berlin', 'America/New_York', 'America/Sao_Paulo', 'Australia/Lord_Howe', 'Asia/Kathmandu'],
    ...['Asia/Tehran', 'Pacific/Chatham', 'Africa/Casablanca', 'Pacific/Kiritimati', 'UTC'],
  ];
  const HOUR_MS = 3_600_000;

  it('walked through hour by hour, practice days come one after the other, none lost and none doubled', () => {
    fc.assert(
      fc.property(fc.constantFrom(...ZONES), fc.nat({ max: 520 }), fc.integer({ min: 0, max: 12 }), (zone, week, cutOverHour) => {
        const from = Date.parse('2016-01-04T00:00:00Z') + week * 7 * 24 * HOUR_MS;
        const days = Array.from({ length: 24 * 8 }, (_, k) => practiceDay(from + k * HOUR_MS, zone, cutOverHour));
        const once = days.filter((day, k) => day !== days[k - 1]);
        expect(once).toEqual([...new Set(once)]);
        for (const [k, day] of once.slice(1).entries()) expect(daysBetween(once[k]!, day)).toBe(1);
        // A day has 23 to 25 hours.
        for (const day of once.slice(1, -1)) expect(Math.abs(days.filter((one) => one === day).length - 24)).toBeLessThanOrEqual(1);
      }),
      { seed: 29, numRuns: 12 },
    );
  });

  it('sessions played late, some after midnight, some days missed: the plan is lived once, and what is done is never written anew', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...ZONES),
        fc.nat({ max: 500 }),
        fc.array(fc.constantFrom('evening', 'night', 'missed'), { minLength: 14, maxLength: 14 }),
        (zone, week, how) => {
          const start = addDays('2016-01-04', 7 * week);
          let plan: Plan = makePlan({ ...REQUEST, start, weeks: 2, minutes: 5, exercises: SHELF.slice(0, 3) }).value!;
          const done: string[] = [];
          for (const [k, each] of how.entries()) {
            const today = addDays(start, k);
            plan = refit(plan, { done, today }).plan;
            const before = JSON.stringify(plan.sessions.filter(({ date }) => date < today));
            if (each !== 'missed') done.push(practiceDay(momentOf(today, each === 'night' ? 25.5 : 19, zone), zone, 4));
            expect(JSON.stringify(refit(plan, { done, today: addDays(today, 1) }).plan.sessions.filter(({ date }) => date < today))).toBe(before);
          }
          expect(done).toEqual(how.flatMap((each, k) => (each === 'missed' ? [] : [addDays(start, k)])));
          const dates = plan.sessions.map(({ date }) => date);
          expect([dates.length, new Set(dates).size]).toEqual([14, 14]);
        },
      ),
      { seed: 31, numRuns: 20 },
    );
  });

  /** The moment at which the clock on a wall in a zone shows so many hours after midnight of a day, found by looking at it. */
  function momentOf(day: string, hours: number, zone: string): number {
    const wall = Date.parse(`${day}T00:00:00Z`) + hours * HOUR_MS;
    const shown = (atMs: number) => {
      const parts = new Intl.DateTimeFormat('en-GB', { timeZone: zone, dateStyle: 'short', timeStyle: 'medium' }).format(atMs);
      const [, date, month, year, time] = /(\d\d)\/(\d\d)\/(\d{4}), (\d\d:\d\d:\d\d)/.exec(parts)!;
      return Date.parse(`${year}-${month}-${date}T${time}Z`);
    };
    const guess = wall - (shown(wall) - wall);
    return guess - (shown(guess) - wall);
  }
});
