/** From what a player has (weeks, days, minutes, a shelf) to a plan. */
import { isDay } from '../day.ts';
import type { Reading } from '../problem.ts';
import { choose } from './choose.ts';
import { withClosing } from './closing.ts';
import { composeSession, repertoireOf } from './compose.ts';
import { familiesNow, shelfOf } from './families.ts';
import { shareMinutes } from './minutes.ts';
import { MINUTES_RANGE, SLOWEST_BPM, WEEKS_MOST } from './parameters.ts';
import type { Plan, PlannedSession, PlanRequest } from './plan.ts';
import { practiceDays, practiceWeekdays } from './practicedays.ts';
import type { PlanProblem } from './said.ts';
import { NOTHING_SEEN, noteSession } from './seen.ts';
import { askedFor } from './way.ts';

/**
 * Plans the weeks. Never throws for what a player can ask.
 *
 * Warm-up, work in turns of about three minutes, the phrase at the end; a reference take a week; one new exercise at a time; families opened
 * as it goes; near-twins on different days; no more exercises a week than the variety limit. The same request gives the same plan.
 * @returns exactly `weeks` × days sessions, by date; refused problems give null.
 */
export function makePlan(request: PlanRequest): Reading<Plan, PlanProblem> {
  const problems = problemsOf(request);
  if (problems.some(({ severity }) => severity === 'refused')) return { value: null, problems };
  const weekdays = practiceWeekdays(request.days, request.start);
  const dates = practiceDays(request.start, request.weeks * weekdays.length, { weekdays, without: new Set() });
  const sessions = planSessions(request, { dates, before: [], perWeek: weekdays.length });
  return { value: withClosing({ replaces: null, weekdays, away: [], sessions }, request.closing ?? null), problems };
}

/**
 * Sessions for the given days, going on from those before.
 * @param options `before` counts as practised, in order; `perWeek` sessions make a week, and the first of each holds the reference takes.
 */
export function planSessions(
  request: PlanRequest,
  options: { readonly dates: readonly string[]; readonly before: readonly PlannedSession[]; readonly perWeek: number },
): readonly PlannedSession[] {
  const { dates, before, perWeek } = options;
  const counting = { phraseId: request.phrase.id, perWeek };
  const shelf = shelfOf(request);
  const families = familiesNow(request);
  const known = new Set(request.known?.map(({ exerciseId }) => exerciseId));
  const ownMinutes = minutesOfOwn(request);
  let seen = before.reduce((memory, session) => noteSession(memory, session, counting), NOTHING_SEEN);
  return dates.map((date, k) => {
    const shared = shareMinutes(request.minutes - ownMinutes, { reference: seen.count % perWeek === 0 });
    const picks = choose({
      ...{ request, shelf, families, known, seen, perWeek, week: Math.floor(k / perWeek) },
      ...{ blocks: shared.work.length, asked: askedFor(request, date) },
    });
    const session = composeSession(request, { date, shared, picks, week: Math.floor(seen.count / perWeek) + 1 });
    seen = noteSession(seen, session, counting);
    return session;
  });
}

/** Minutes of a session that the player's own music takes. */
const minutesOfOwn = (request: PlanRequest): number => repertoireOf(request).reduce((sum, { minutes }) => sum + minutes, 0);

function problemsOf(request: PlanRequest): readonly PlanProblem[] {
  const { minutes, weeks, days, start, goalBpm } = request;
  const { least, most } = MINUTES_RANGE;
  const own = minutesOfOwn(request);
  const count = typeof days === 'number' ? days : days.length;
  const whole = (value: number, highest: number) => Number.isInteger(value) && value >= 1 && value <= highest;
  const weekdaysThere = typeof days === 'number' || days.every((day) => whole(day, 7));
  const checks: readonly [boolean, PlanProblem][] = [
    [minutes >= least && minutes <= most, { code: 'plan-minutes-range', severity: 'refused', params: { minutes, least, most } }],
    [own === 0 || minutes - own >= least, { code: 'plan-own-too-long', severity: 'refused', params: { minutes, own, least } }],
    [whole(weeks, WEEKS_MOST), { code: 'plan-weeks-range', severity: 'refused', params: { weeks, most: WEEKS_MOST } }],
    [whole(count, 7) && weekdaysThere, { code: 'plan-days-range', severity: 'refused', params: { days: count } }],
    [isDay(start), { code: 'plan-start-not-a-day', severity: 'refused', params: { start } }],
    [
      goalBpm >= SLOWEST_BPM && Number.isFinite(goalBpm),
      { code: 'plan-tempo-range', severity: 'refused', params: { tempoBpm: goalBpm, least: SLOWEST_BPM } },
    ],
    [shelfOf(request).length > 0, { code: 'plan-no-exercises', severity: 'doubtful', params: {} }],
  ];
  return checks.filter(([fine]) => !fine).map(([, problem]) => problem);
}
