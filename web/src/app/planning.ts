/** From a phrase and some weeks to a plan, and what becomes of it as days pass: everything but keeping it. */
import { addDays, daysBetween, type Weekday, weekdayOf } from '@evenhand/core/day';
import { compareMade, type DiaryView, type KnownRecord } from '@evenhand/core/diary';
import { contentId, type Exercise, exercisesFor, type Family, type PlayedAt, readFocus } from '@evenhand/core/exercise';
import {
  isCheck,
  type KnownTempo,
  makePlan,
  type Plan,
  type PlannedSession,
  type PlanRequest,
  planAgain,
  type Refitted,
  readinessOfPlan,
  refit,
  withCheck,
} from '@evenhand/core/plan';
import type { Problem, Reading } from '@evenhand/core/problem';
import type { BlockResult } from '@evenhand/core/progress';
import { arranged, choicesOf, shelfIdOf } from './choices.ts';
import { ofPlan } from './cutoff.ts';
import { contentOf, type Phrase, readingOf } from './phrase.ts';
import { knownOf } from './results.ts';
import type { Cell } from './ring.ts';
import { type Agreed, NOTHING_AGREED, type StandingPlan } from './savedplan.ts';
import { DEFAULT_SETTINGS, handFirst, type Settings, shelfOptions } from './settings.ts';

/** What a drummer asks of a plan. */
export interface PlanAsked {
  readonly weeks: number;
  readonly weekdays: readonly Weekday[];
  readonly minutes: number;
  /** First civil day. */
  readonly start: string;
  /** Tempo the phrase is wanted at. */
  readonly goalBpm: number;
}

/** What is asked for unless somebody asks otherwise. @source [JobBrief] some weeks of short sessions, a usual twelve minutes. */
const USUAL = { weeks: 5, minutes: 12, daysAWeek: 5 } as const;

/** The usual plan from a day on: five days a week, that day among them. */
export const usualPlan = (today: string, goalBpm: number): PlanAsked => ({
  weeks: USUAL.weeks,
  minutes: USUAL.minutes,
  weekdays: Array.from({ length: USUAL.daysAWeek }, (_, k) => weekdayOf(addDays(today, Math.floor((k * 7) / USUAL.daysAWeek)))).sort((a, b) => a - b),
  start: today,
  goalBpm,
});

/** A phrase with the exercises that were laid out for its cell. */
export interface Material {
  readonly phrase: Exercise;
  readonly exercises: readonly Exercise[];
}

/** A plan that was asked for and is not kept yet. */
export interface PlanPreview {
  readonly asked: PlanAsked;
  readonly plan: Plan | null;
  readonly problems: readonly Problem[];
  readonly exercises: readonly Exercise[];
  /** The plan of the same phrase, whose place it takes. */
  readonly replaces: StandingPlan | null;
}

/** What of the drummer a plan's material depends on. */
export interface MaterialFor {
  readonly settings?: Settings;
  /** What was kept comes first, what was dropped is never planned. */
  readonly diary?: Pick<DiaryView, 'choices'>;
  /** What this player reaches so far at the tempo work starts at: what lies beyond is planned last. */
  readonly at?: PlayedAt;
}

/** Exercises of all families for a phrase and cell, as the player's drums, hands and choices allow; null while the phrase does not read. */
export function materialOf(phrase: Phrase, cell: Cell, { settings = DEFAULT_SETTINGS, diary, at }: MaterialFor = {}): Material | null {
  const sticking = readingOf(phrase).value;
  const focus = sticking && readFocus(cell, sticking).value;
  if (!focus) return null;
  const content = contentOf(phrase, sticking);
  const exercises = handFirst(
    exercisesFor(content, focus, { ...shelfOptions(settings, content.surfaces), ...(at ? { at } : {}) }).exercises,
    settings.hand,
  );
  const whole = exercises.find(({ id }) => id === contentId(content));
  if (!whole) return null;
  return { phrase: whole, exercises: diary ? arranged(exercises, choicesOf(diary, shelfIdOf(phrase))) : exercises };
}

/** The plan that was asked for. */
export const planFor = (material: Material, asked: PlanAsked, known: readonly KnownTempo[], agreed: Agreed = NOTHING_AGREED): Reading<Plan> =>
  makePlan(requestOf(material, asked, { known, agreed }));

const requestOf = (
  { phrase, exercises }: Material,
  { weeks, weekdays, minutes, start, goalBpm }: PlanAsked,
  { known, agreed }: { readonly known: readonly KnownTempo[]; readonly agreed: Agreed },
): PlanRequest => ({
  ...{ phrase, exercises, known, goalBpm, weeks, minutes, start },
  ...agreed,
  days: weekdays,
});

/** What a plan that stands would be asked for again. */
export const requestAgain = (
  { plan, goalBpm, minutes, agreed }: StandingPlan,
  material: Material,
  { today, known }: { readonly today: string; readonly known: readonly KnownTempo[] },
): PlanRequest => requestOf(material, { weeks: 1, weekdays: plan.weekdays, minutes, start: today, goalBpm }, { known, agreed });

/** The plan on a day: sessions of days that went by without one moved on. Null when nothing had to change. */
export function caughtUp({ plan, id }: StandingPlan, { done, today }: { readonly done: readonly string[]; readonly today: string }): Refitted | null {
  const refitted = refit(plan, { done, today, planId: id });
  return refitted.plan === plan ? null : refitted;
}

/**
 * Whether a session of the plan is over of which the plan knows nothing yet, as when the page was closed before it was made again: something of it
 * was written after the plan that stands. What hurt moves nothing.
 */
export const waitsForPlan = ({ days }: Pick<DiaryView, 'days'>, { made, body }: KnownRecord<'plan'>): boolean =>
  days.some(({ sessions }) =>
    sessions.some((entry) => {
      const { ended, stickingPointId } = entry.session.body;
      const over = ended !== null && ended !== 'hurt' && stickingPointId === body.stickingPointId && ofPlan(entry);
      return over && entry.blocks.some((block) => compareMade(block.made, made) > 0);
    }),
  );

/** Whether a session from a day on has an exercise. */
export const comesUp = ({ sessions }: Plan, exerciseId: string, today: string): boolean =>
  sessions.some(({ date, blocks }) => date >= today && blocks.some((block) => block.exerciseId === exerciseId));

/** What is left of the plan, made again from what is known now. Null when that changes no session. */
export function plannedAgain(
  standing: StandingPlan,
  material: Material,
  { done, today, known }: { readonly done: readonly string[]; readonly today: string; readonly known: readonly KnownTempo[] },
): Refitted | null {
  const { plan, id } = standing;
  const again = planAgain(plan, requestAgain(standing, material, { today, known }), { done, today, planId: id });
  return JSON.stringify(again.plan.sessions) === JSON.stringify(plan.sessions) ? null : again;
}

/** What the plan has for a day. */
export type PlannedDay =
  | { readonly at: 'session'; readonly session: PlannedSession }
  /** Played; `session` is what was planned for today, null when nothing was. */
  | { readonly at: 'done'; readonly next: PlannedSession | null; readonly session: PlannedSession | null }
  | { readonly at: 'free'; readonly next: PlannedSession | null }
  /** The phrase is closed or put aside; a closed one may have a check to come. */
  | { readonly at: 'rest'; readonly next: PlannedSession | null };

/** @param done days on which something was played. @param state of the phrase; open unless said. */
export function plannedDay(
  { sessions }: Plan,
  { done, today, state = 'open' }: { readonly done: readonly string[]; readonly today: string; readonly state?: 'open' | 'paused' | 'closed' },
): PlannedDay {
  // Of a phrase that is put aside nothing is proposed, of a closed one its checks alone.
  const proposed = state === 'open' ? sessions : state === 'closed' ? sessions.filter(isCheck) : [];
  const next = proposed.find(({ date }) => date > today) ?? null;
  const session = proposed.find(({ date }) => date === today) ?? null;
  if (session !== null && !done.includes(today)) return { at: 'session', session };
  if (state !== 'open') return { at: 'rest', next };
  return done.includes(today) ? { at: 'done', next, session } : { at: 'free', next };
}

/** The same where something is to be played all the same: one more today, or the next session on a day without one. A check stays on its day: it asks whether the phrase is still there then. */
export function asWished(planned: PlannedDay, { oneMore, ahead }: { readonly oneMore: boolean; readonly ahead: boolean }): PlannedDay {
  const session = oneMore && planned.at === 'done' ? planned.session : ahead ? playableAhead(planned) : null;
  return session ? { at: 'session', session } : planned;
}

/** The session that may be played on a day without one; null when there is none. */
export const playableAhead = (planned: PlannedDay): PlannedSession | null =>
  planned.at === 'free' && planned.next && !isCheck(planned.next) ? planned.next : null;

/** A plan with a check on the calendar when everything holds and no session comes late enough to try it again. */
export function checkedLater(
  standing: StandingPlan,
  material: Material,
  { today, results }: { readonly today: string; readonly results: readonly BlockResult[] },
): Refitted | null {
  const due = readinessOfPlan(standing, results)?.missing.find(({ code }) => code === 'progress-check-due');
  if (due?.code !== 'progress-check-due') return null;
  const from = due.params.from > today ? due.params.from : addDays(today, 1);
  const { plan, id } = standing;
  const checked = withCheck(plan, requestAgain(standing, material, { today, known: knownOf(results) }), { from, planId: id });
  return checked.plan === plan ? null : checked;
}

/** A day of a plan, and what became of it. */
export interface ListedDay {
  readonly day: string;
  /** Null for a day that was missed: its session is on another day now. */
  readonly session: PlannedSession | null;
  /** Minutes played, 0 for none; null for a day to come, and for today until something is played. */
  readonly playedMin: number | null;
}

/** A week of a plan, counted from its first day. */
export interface PlanWeek {
  /** From 1. */
  readonly week: number;
  readonly sessions: readonly PlannedSession[];
  readonly days: readonly ListedDay[];
}

/**
 * A plan week by week, days that were missed among them; weeks without any day are left out.
 * @param lived minutes played by day, and the practice day it is.
 */
export function weeksOf(
  { sessions, away }: Pick<Plan, 'sessions' | 'away'>,
  { played, today }: { readonly played: ReadonlyMap<string, number>; readonly today: string },
): readonly PlanWeek[] {
  const playedMin = (day: string) => played.get(day) ?? (day < today ? 0 : null);
  const planned = sessions.map((session): ListedDay => ({ day: session.date, session, playedMin: playedMin(session.date) }));
  const missed = away
    .filter((day) => day < today && !sessions.some(({ date }) => date === day))
    .map((day): ListedDay => ({ day, session: null, playedMin: playedMin(day) }));
  const days = [...planned, ...missed].sort((a, b) => (a.day < b.day ? -1 : 1));
  const weekOf = ({ day }: ListedDay) => Math.floor(daysBetween(days[0]!.day, day) / 7) + 1;
  return [...new Set(days.map(weekOf))].map((week) => {
    const own = days.filter((day) => weekOf(day) === week);
    return { week, days: own, sessions: own.flatMap(({ session }) => session ?? []) };
  });
}

/** A kind of exercise; the phrase itself is none of the kinds made of it. */
export type Worked = Family | 'phrase';

/** What a session works on, each kind once, in order. */
export function workOf({ blocks }: PlannedSession, exercises: readonly Exercise[]): readonly Worked[] {
  const work = blocks.filter(({ part }) => part === 'work').flatMap(({ exerciseId }) => exercises.find(({ id }) => id === exerciseId) ?? []);
  return [...new Set(work.map(({ title, family }) => (title.code === 'title-whole' ? 'phrase' : family)))];
}
