/** Checks weeks later, on the calendar: short sessions that try a phrase again, of a plan that is over or closed; and work begun again. */
import { addDays } from '../day.ts';
import { planSessions } from './make.ts';
import { CHECK_DAYS, CHECK_MINUTES, REOPENED_WEEKS } from './parameters.ts';
import type { Plan, PlannedBlock, PlannedSession, PlanRequest } from './plan.ts';
import { practiceDays } from './practicedays.ts';
import { type Happened, type Refitted, revision, split } from './refit.ts';
import { warmUpTempo, wholeBpm } from './starttempo.ts';

/**
 * A plan whose phrase was closed: what was done stays, what was still to come goes, and checks come at growing distances from that day.
 * @param request as for the first plan; its weeks, days and start are not used.
 * @param happened `today` the day on which it was closed, the practice day it is.
 */
export function closePlan(plan: Plan, request: PlanRequest, happened: Happened & { readonly today: string }): Refitted {
  const parts = split(plan, happened);
  const without = new Set([...parts.away, ...parts.kept.map(({ date }) => date)]);
  const days = CHECK_DAYS.flatMap((after) => practiceDays(addDays(happened.today, after), 1, { weekdays: plan.weekdays, without }));
  const sessions = days.map((date) => checkSession(date, request));
  return { plan: revision(plan, parts, { sessions, planId: happened.planId }), changes: [{ code: 'plan-checks', params: { days } }] };
}

/**
 * A plan with a check on the first practice day from a day on, where it has no session of any kind from then on: work that goes on so long tries
 * the phrase every week anyway.
 * @param from first day on which a check counts.
 * @returns the same plan when nothing had to change.
 */
export function withCheck(plan: Plan, request: PlanRequest, { from, planId }: { readonly from: string; readonly planId?: string }): Refitted {
  if (plan.sessions.some(({ date }) => date >= from)) return { plan, changes: [{ code: 'plan-unchanged', params: {} }] };
  const days = practiceDays(from, 1, { weekdays: plan.weekdays, without: new Set(plan.away) });
  const sessions = [...plan.sessions, ...days.map((date) => checkSession(date, request))];
  return { plan: { ...plan, replaces: planId ?? plan.replaces, sessions }, changes: [{ code: 'plan-checks', params: { days } }] };
}

/**
 * A plan whose phrase is worked on again: what was done stays, checks to come go, and two weeks come from what is known now.
 * @param request as for the first plan; its weeks, days and start are not used.
 * @param happened `today` the first day of practice again.
 */
export function reopenPlan(plan: Plan, request: PlanRequest, happened: Happened & { readonly today: string }): Refitted {
  const parts = split(plan, happened);
  const perWeek = plan.weekdays.length;
  const without = new Set([...parts.away, ...parts.kept.map(({ date }) => date)]);
  const dates = practiceDays(happened.today, REOPENED_WEEKS * perWeek, { weekdays: plan.weekdays, without });
  const sessions = planSessions({ ...request, weeks: REOPENED_WEEKS }, { dates, before: parts.kept, perWeek });
  const changes = [{ code: 'plan-opened-again', params: { sessionCount: sessions.length } }] as const;
  return { plan: revision(plan, parts, { sessions, planId: happened.planId }), changes };
}

/** The phrase at the tempo it is wanted at, after a warm-up. */
function checkSession(date: string, request: PlanRequest): PlannedSession {
  const { phrase, goalBpm } = request;
  const { perBeat } = phrase;
  const slow = warmUpTempo(phrase, request);
  const tempoBpm = wholeBpm(goalBpm);
  const warmUp: PlannedBlock = {
    ...{ exerciseId: phrase.id, part: 'warmUp', minutes: CHECK_MINUTES.warmUp, tempoBpm: slow.tempoBpm, tempoReason: slow.why },
    aim: { code: 'plan-aim-warm-up', params: { tempoBpm: slow.tempoBpm, perBeat } },
    reason: { code: 'plan-reason-warm-up', params: {} },
  };
  const check: PlannedBlock = {
    ...{ exerciseId: phrase.id, part: 'reference', minutes: CHECK_MINUTES.phrase, tempoBpm },
    aim: { code: 'plan-aim-reference', params: { tempoBpm, perBeat } },
    reason: { code: 'plan-reason-check', params: {} },
    tempoReason: { code: 'plan-tempo-fixed', params: {} },
  };
  return { date, minutes: CHECK_MINUTES.warmUp + CHECK_MINUTES.phrase, blocks: [warmUp, check] };
}
