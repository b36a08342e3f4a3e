/** What a plan becomes when life happens: a missed session moves on, nothing that is past changes, and what changed is said. */
import { addDays, daysBetween } from '../day.ts';
import { planSessions } from './make.ts';
import { isCheck, type Plan, type PlannedSession, type PlanRequest } from './plan.ts';
import { practiceDays } from './practicedays.ts';
import type { PlanChange } from './said.ts';

/** What happened. */
export interface Happened {
  /** Days whose session did not take place, past or to come. */
  readonly missed?: readonly string[];
  /** Days whose session took place. When given, every earlier day than `today` that is not among them counts as missed; else those not in `missed` count as done. */
  readonly done?: readonly string[];
  /** The practice day it is; default the day after the last one missed. */
  readonly today?: string;
  /** Record id of the plan that is refitted. */
  readonly planId?: string;
}

/** A plan after a refit, with what changed. */
export interface Refitted {
  /** The same plan, as it was, when nothing had to change. */
  readonly plan: Plan;
  readonly changes: readonly PlanChange[];
}

/**
 * Moves missed sessions on: each takes the next practice day, those after it follow, in their order, and the plan ends as much later.
 * Sessions that were done stay as they are. Doing it twice changes nothing more. No penalty, no doubled session: one missed occasion
 * does not matter. @source [Lally2010]
 */
export function refit(plan: Plan, happened: Happened): Refitted {
  const parts = split(plan, happened);
  if (parts.missed.length === 0) return { plan, changes: [{ code: 'plan-unchanged', params: {} }] };
  const sessions = parts.toMove.map((session, k) => ({ ...session, date: parts.dates[k]! }));
  return { plan: revision(plan, parts, { sessions, planId: happened.planId }), changes: changesOf(parts) };
}

/**
 * Plans what is left again: what was done stays, the rest is made anew for the same number of sessions, from what is known now
 * (tempi, families that hold, another shelf, other minutes).
 * @param request as for the first plan, with what is known now; its weeks, days and start are not used.
 */
export function planAgain(plan: Plan, request: PlanRequest, happened: Happened): Refitted {
  const parts = split(plan, happened);
  const perWeek = plan.weekdays.length;
  // A check is what it is; the sessions before it are made anew.
  const checks = parts.toMove.flatMap((session, k) => (isCheck(session) ? [{ ...session, date: parts.dates[k]! }] : []));
  const dates = parts.dates.filter((_, k) => !isCheck(parts.toMove[k]!));
  const weeks = Math.max(1, Math.ceil(dates.length / perWeek));
  const sessions = planSessions({ ...request, weeks }, { dates, before: parts.kept, perWeek });
  const made: PlanChange = { code: 'plan-made-again', params: { sessionCount: sessions.length } };
  return {
    plan: revision(plan, parts, { sessions: [...sessions, ...checks], planId: happened.planId }),
    changes: [...changesOf(parts), ...restingOf(parts.toMove, request), made],
  };
}

/** Exercises of sessions to come that are too hard now, and rest. */
function restingOf(toMove: readonly PlannedSession[], { known = [], phrase }: PlanRequest): readonly PlanChange[] {
  const planned = new Set(toMove.flatMap(({ blocks }) => blocks.map(({ exerciseId }) => exerciseId)));
  const count = known.filter(({ exerciseId, tooHard }) => tooHard && exerciseId !== phrase.id && planned.has(exerciseId)).length;
  return count > 0 ? [{ code: 'plan-too-hard', params: { count } }] : [];
}

/** A plan taken apart by what happened. */
export interface Parts {
  /** Sessions that are past or done: they stay as they are. */
  readonly kept: readonly PlannedSession[];
  readonly toMove: readonly PlannedSession[];
  /** A practice day for each session that is still to come. */
  readonly dates: readonly string[];
  readonly away: readonly string[];
  /** Days whose session moves because it was not played. Ascending. */
  readonly missed: readonly string[];
}

/** What stays of a plan, and where the rest of it goes. */
export function split(plan: Plan, { missed = [], done, today = dayAfter(missed) }: Happened): Parts {
  const isMissed = (date: string) => missed.includes(date) || (done !== undefined && date < today && !done.includes(date));
  const isKept = (date: string) => done?.includes(date) || (date < today && !isMissed(date));
  const kept = plan.sessions.filter(({ date }) => isKept(date));
  const toMove = plan.sessions.filter(({ date }) => !isKept(date));
  const missedNow = toMove.filter(({ date }) => isMissed(date) || date < today).map(({ date }) => date);
  const away = [...new Set([...plan.away, ...missed, ...missedNow])].sort();
  const without = new Set([...away, ...kept.map(({ date }) => date)]);
  // Without a missed session everything to come stays where it is, even where the player planned by hand.
  const dates = missedNow.length === 0 ? toMove.map(({ date }) => date) : moved(toMove, { from: today, weekdays: plan.weekdays, without });
  return { kept, toMove, dates, away, missed: missedNow };
}

/**
 * The next practice days for sessions in their order; but a check keeps its distance, and moves only off a day that is gone or taken. Of checks that
 * were missed each keeps its distance from the one before.
 */
function moved(
  sessions: readonly PlannedSession[],
  { from, weekdays, without }: { readonly from: string; readonly weekdays: Plan['weekdays']; readonly without: ReadonlySet<string> },
): readonly string[] {
  const work = sessions.filter((session) => !isCheck(session));
  const days = practiceDays(from, work.length, { weekdays, without });
  const taken = new Set([...without, ...days]);
  let before: { readonly was: string; readonly is: string } | null = null;
  return sessions.map((session) => {
    if (!isCheck(session)) return days[work.indexOf(session)]!;
    const apart: string = before ? addDays(before.is, daysBetween(before.was, session.date)) : from;
    const day = practiceDays(session.date < from ? apart : session.date, 1, { weekdays, without: taken })[0]!;
    taken.add(day);
    before = { was: session.date, is: day };
    return day;
  });
}

/** The day after the last one missed; without any, before every day, so that nothing is past. */
function dayAfter(missed: readonly string[]): string {
  const last = [...missed].sort().at(-1);
  return last === undefined ? '0000-03-01' : addDays(last, 1);
}

/** The revision of a plan with these sessions after what stays. */
export function revision(
  plan: Plan,
  parts: Parts,
  { sessions, planId }: { readonly sessions: readonly PlannedSession[]; readonly planId: string | undefined },
): Plan {
  const all = [...parts.kept, ...sessions].sort((a, b) => (a.date < b.date ? -1 : 1));
  return { ...plan, replaces: planId ?? plan.replaces, away: parts.away, sessions: all };
}

function changesOf({ toMove, dates, missed }: Parts): readonly PlanChange[] {
  const moved = toMove.map((session, k) => ({ from: session.date, to: dates[k]!, check: isCheck(session) })).filter(({ from, to }) => from !== to);
  const work = moved.filter(({ check }) => !check);
  const [first, last] = [work[0], work.at(-1)];
  const checks = moved.filter(({ check }) => check).map(({ from, to }): PlanChange => ({ code: 'plan-check-moved', params: { from, to } }));
  if (!first || !last) return checks;
  const gone = missed.filter((day) => work.some(({ from }) => from === day));
  return [
    { code: 'plan-session-moved', params: { from: first.from, to: first.to, count: gone.length, until: gone.at(-1) ?? first.from } },
    { code: 'plan-ends-later', params: { from: last.from, to: last.to } },
    ...checks,
  ];
}
