/** Days and minutes of practice as plain figures, and the days since. */
import { addDays, daysBetween, startOfWeek, type Weekday } from '../day.ts';
import type { DiaryView } from '../diary/index.ts';
import { minutesOfSec } from '../units.ts';
import { DAYS_AWAY_ALLOWED } from './parameters.ts';
import type { AwayStatement } from './said.ts';

/** A session as far as figures need it. */
export interface PractisedSession {
  /** Practice day `YYYY-MM-DD`. */
  readonly day: string;
  readonly minutes: number;
}

/** Plain sums. */
export interface PracticeFigures {
  readonly sessions: number;
  /** Different days with a session. */
  readonly days: number;
  readonly minutes: number;
}

/** A week's sums. */
export interface PracticeWeek extends PracticeFigures {
  /** First day of the week. */
  readonly from: string;
}

/** Sessions in which something was played. */
export const practisedOf = ({ days }: Pick<DiaryView, 'days'>): readonly PractisedSession[] =>
  days.flatMap(({ day, sessions }) =>
    sessions.filter(({ playedSec }) => playedSec > 0).map(({ playedSec }) => ({ day, minutes: minutesOfSec(playedSec) })),
  );

/** Sums over the sessions of a span of days, both ends included. */
export function practised(sessions: readonly PractisedSession[], span: { readonly from: string; readonly to: string }): PracticeFigures {
  const inside = sessions.filter(({ day }) => day >= span.from && day <= span.to);
  const days = new Set(inside.map(({ day }) => day)).size;
  return { sessions: inside.length, days, minutes: inside.reduce((sum, { minutes }) => sum + minutes, 0) };
}

/**
 * The same week by week, from the week of the first session to that of `today`, weeks without practice included. Empty without sessions.
 * @param options `weekStart` Monday unless said.
 */
export function practisedByWeek(
  sessions: readonly PractisedSession[],
  { today, weekStart = 1 }: { readonly today: string; readonly weekStart?: Weekday },
): readonly PracticeWeek[] {
  const [first] = sessions.map(({ day }) => day).sort();
  if (first === undefined || first > today) return [];
  const from = startOfWeek(first, weekStart);
  const weeks = Math.floor(daysBetween(from, today) / 7) + 1;
  return Array.from({ length: weeks }, (_, k) => {
    const weekFrom = addDays(from, 7 * k);
    return { from: weekFrom, ...practised(sessions, { from: weekFrom, to: addDays(weekFrom, 6) }) };
  });
}

/** Days since the last session up to `today`: 0 when there was one today, null when there has been none. */
export function daysAway(sessions: readonly PractisedSession[], today: string): number | null {
  const last = sessions
    .map(({ day }) => day)
    .filter((day) => day <= today)
    .sort()
    .at(-1);
  return last === undefined ? null : daysBetween(last, today);
}

/** Days on end without practice. */
export interface DaysWithout {
  /** First and last of them. */
  readonly from: string;
  readonly to: string;
  readonly days: number;
}

/** Where, within a span of days with both ends included, more days on end than the player allows were without practice. Ascending. */
export function longerAway(
  sessions: readonly PractisedSession[],
  { from, to }: { readonly from: string; readonly to: string },
  allowedDays: number = DAYS_AWAY_ALLOWED,
): readonly DaysWithout[] {
  const inside = [...new Set(sessions.map(({ day }) => day))].filter((day) => day >= from && day <= to).sort();
  const ends = [addDays(from, -1), ...inside, addDays(to, 1)];
  return ends.slice(1).flatMap((next, k) => {
    const days = daysBetween(ends[k]!, next) - 1;
    return days > allowedDays ? [{ from: addDays(ends[k]!, 1), to: addDays(next, -1), days }] : [];
  });
}

/**
 * Every stretch of days away in a diary, from its first session to the day before `today`, which is not over: the one answer that all pages give.
 * @param sessions of all phrases.
 */
export function everyAway(sessions: readonly PractisedSession[], today: string): readonly DaysWithout[] {
  const from = sessions.map(({ day }) => day).sort()[0];
  return from === undefined ? [] : longerAway(sessions, { from, to: addDays(today, -1) });
}

/** Those of which more days than the player allows lie in a span, both ends included; each told whole. */
export const awayIn = (
  sessions: readonly PractisedSession[],
  { from, to, today }: { readonly from: string; readonly to: string; readonly today: string },
) => everyAway(sessions, today).filter((one) => daysBetween(one.from > from ? one.from : from, one.to < to ? one.to : to) + 1 > DAYS_AWAY_ALLOWED);

/** One kind word when more days have passed than the player allows; null otherwise. Never more than that. */
export function welcomeBack(sessions: readonly PractisedSession[], today: string, allowedDays: number = DAYS_AWAY_ALLOWED): AwayStatement | null {
  const days = daysAway(sessions, today);
  return days !== null && days > allowedDays ? { code: 'progress-welcome-back', params: { days } } : null;
}
