/** The plan that a page of the weeks is about, with the days, sessions and results that belong to it. */
import { addDays } from '../day.ts';
import type { DiaryView, KnownRecord, SavedExercise, SavedPlannedSession, SessionEntry } from '../diary/index.ts';
import { isByHand, phraseOfSession } from '../diary/index.ts';
import { type BlockResult, type PractisedSession, resultsOf } from '../progress/index.ts';
import { minutesOfSec } from '../units.ts';
import { type Planned, phraseOfPlan } from './planned.ts';

/** Name of the setting that says which phrase is at hand, by its id. */
export const PHRASE_AT_HAND = 'phraseAtHand';

/** Which plan, and up to which practice day. */
export interface WeeksAsked {
  /** Practice day `YYYY-MM-DD`; what is later is left out. */
  readonly today: string;
  /** Record id of a plan that stands; unless said the one at hand, else the one made last. */
  readonly planId?: string;
}

/** A session that was played, as far as the page needs it. */
export interface PlayedSession extends PractisedSession {
  readonly byHand: boolean;
  readonly stickingPointId: string | null;
  readonly ended: 'done' | 'stopped' | 'hurt' | null;
}

/** A plan and what happened while it stood. */
export interface WeeksPlan {
  readonly planned: Planned<SavedExercise>;
  readonly phrase: SavedExercise | null;
  readonly point: KnownRecord<'stickingPoint'> | null;
  readonly record: KnownRecord<'plan'>;
  /** Sessions without checks weeks later, and those checks; by date. */
  readonly sessions: readonly SavedPlannedSession[];
  readonly checks: readonly SavedPlannedSession[];
  /** Days for which a session was planned, those on which it was missed included. Ascending. */
  readonly plannedDays: readonly string[];
  /** First day, last day told of, and last day planned. */
  readonly from: string;
  readonly end: string;
  readonly to: string;
  /** In the span told of; and before it, of the same phrase. */
  readonly played: readonly PlayedSession[];
  readonly earlier: readonly PlayedSession[];
  /** Of every phrase, whenever. */
  readonly everything: readonly PlayedSession[];
  /** Last day whose planned sessions count as not played: that of the closing or putting aside, else today. */
  readonly plannedUntil: string;
  readonly results: readonly BlockResult[];
}

/** Two minutes of looking for a tempo are no day's session. */
const isSearch = ({ blocks }: SessionEntry): boolean => blocks.length > 0 && blocks.every(({ body }) => body.search !== undefined);

/**
 * The days of a diary with the sessions of a phrase's plan: without those of the phrases of other plans, and without searches. What names no
 * phrase counts for the one that was open on its day.
 */
export function daysOfPhrase({ days, plans, stickingPoints }: DiaryView, stickingPointId: string | null): Pick<DiaryView, 'days'> {
  const others = new Set(plans.map(({ body }) => body.stickingPointId).filter((id) => id !== null && id !== stickingPointId));
  const isOurs = (of: string | null) => (of === null ? stickingPointId === null : !others.has(of));
  const counts = (entry: SessionEntry) => isOurs(phraseOfSession(entry.session, stickingPoints)) && !isSearch(entry);
  return { days: days.map((day) => ({ ...day, sessions: day.sessions.filter(counts) })) };
}

/** The plan asked for; null when there is none, or none with a session. */
export function weeksPlan(view: DiaryView, { today, planId }: WeeksAsked): WeeksPlan | null {
  const record = planAsked(view, planId);
  if (!record) return null;
  const { body } = record;
  const isCheck = ({ blocks }: SavedPlannedSession) => blocks.some(({ reason }) => reason.code === 'plan-reason-check');
  const sessions = body.sessions.filter((session) => !isCheck(session));
  const point = view.stickingPoints.find(({ id }) => id === body.stickingPointId) ?? null;
  // After the closing only checks were planned.
  const missed = isClosed(point) ? body.away.filter((day) => day <= endedOn(point)!) : body.away;
  const plannedDays = [...new Set([...sessions.map(({ date }) => date), ...missed])].sort();
  const [from, to] = [plannedDays[0], plannedDays.at(-1)];
  if (from === undefined || to === undefined) return null;
  const all = playedIn(daysOfPhrase(view, body.stickingPointId), view);
  const until = lastDay(point, all, today);
  const played = all.filter(({ day }) => day >= from && day <= until);
  const last = [...played.map(({ day }) => day), to].sort().at(-1)!;
  const planned = { goalBpm: body.goalBpm, exercises: body.exercises, plan: body };
  return {
    ...{ planned, phrase: phraseOfPlan(planned), record, sessions, checks: body.sessions.filter(isCheck), plannedDays, from, to },
    point,
    end: [last, until].sort()[0]!,
    played,
    earlier: all.filter(({ day }) => day < from),
    everything: playedIn(view, view),
    plannedUntil: [endedOn(point) ?? today, today].sort()[0]!,
    results: resultsOf(view).filter(({ day }) => day <= today),
  };
}

/** The day on which a phrase was closed or put aside; null while it is worked on. */
const endedOn = (point: KnownRecord<'stickingPoint'> | null): string | null => {
  const { state } = point?.body ?? {};
  return state && state.is !== 'open' ? state.day : null;
};

export const isClosed = (point: KnownRecord<'stickingPoint'> | null): boolean => point?.body.state?.is === 'closed';

/** The page of a phrase that was closed or put aside ends there, or with what was played of it since: days after that are not days away from it. */
function lastDay(point: KnownRecord<'stickingPoint'> | null, played: readonly PlayedSession[], today: string): string {
  const ended = endedOn(point);
  if (!point || ended === null) return today;
  const own = played.filter(({ stickingPointId, day }) => stickingPointId === point.id && day <= today).map(({ day }) => day);
  return [ended, ...own].sort().at(-1)!;
}

/** Planned days that are over, or on which something was played, from a day on; none after the phrase was closed or put aside. */
export const plannedUpTo = ({ plannedDays, played, plannedUntil }: WeeksPlan, { from }: { readonly from: string }): readonly string[] =>
  plannedDays.filter((day) => day >= from && (day < plannedUntil || (day === plannedUntil && played.some((session) => session.day === day))));

/** First day of the week of seven days that ends on a day. */
export const weekEnding = (day: string): string => addDays(day, -6);

function planAsked({ plans, settings }: DiaryView, planId: string | undefined): KnownRecord<'plan'> | null {
  if (planId !== undefined) return plans.find(({ id }) => id === planId) ?? null;
  const atHand = settings[PHRASE_AT_HAND];
  return plans.find(({ body }) => body.stickingPointId !== null && body.stickingPointId === atHand) ?? plans.at(-1) ?? null;
}

const playedIn = ({ days }: Pick<DiaryView, 'days'>, { stickingPoints }: Pick<DiaryView, 'stickingPoints'>): readonly PlayedSession[] =>
  days.flatMap(({ day, sessions }) =>
    sessions.flatMap(({ session, playedSec }) =>
      playedSec > 0 || session.body.ended === 'hurt'
        ? [
            {
              ...{ day, minutes: minutesOfSec(playedSec), byHand: isByHand(session), ended: session.body.ended },
              stickingPointId: phraseOfSession(session, stickingPoints),
            },
          ]
        : [],
    ),
  );
