/** The whole diary as one row of time: each phrase from its first day to its last, days away, changes of set-up and lessons. */
import { addDays, daysBetween } from '../day.ts';
import type { DiaryView } from '../diary/index.ts';
import { type AwayTold, awayTold } from './awaytold.ts';
import { LANE_DAYS } from './parameters.ts';
import { everyAway, practisedOf } from './practised.ts';
import type { BlockResult } from './results.ts';
import { type SetupChange, setupChanges } from './setups.ts';
import { type KnownTempo, knownOn } from './tempocurve.ts';
import { type WorkedOn, workedOn } from './workedon.ts';

/** A phrase as a lane of time. */
export interface PhraseLane extends Omit<WorkedOn, 'from' | 'to'> {
  /** The day it was begun, or first played. */
  readonly from: string;
  /** The day it was closed or put aside; of one that is worked on, the last day of the diary. */
  readonly to: string;
  /** Last day on which it was played. */
  readonly lastPlayed: string;
}

/** A line of the player's own that tells of a lesson. */
export interface LessonTold {
  readonly day: string;
  readonly text: string;
}

/** All of it by days; each list ascending. */
export interface WholeDiary {
  /** First day with a session or a phrase, and today. */
  readonly from: string;
  readonly to: string;
  /** By the day they were begun. */
  readonly lanes: readonly PhraseLane[];
  readonly away: readonly AwayTold[];
  readonly changes: readonly SetupChange[];
  readonly lessons: readonly LessonTold[];
}

/**
 * The diary up to today; null while no phrase was played. It reads days and lines alone: what was heard is asked for phrase by phrase (`laneTempi`).
 * @param results of the diary, all of them.
 */
export function wholeDiary(view: DiaryView, results: readonly BlockResult[], today: string): WholeDiary | null {
  const lanes = lanesOf(view, results, today);
  if (lanes.length === 0) return null;
  const sessions = practisedOf(view).filter(({ day }) => day <= today);
  const from = [...sessions, ...lanes.map((lane) => ({ day: lane.from }))].reduce((first, { day }) => (day < first ? day : first), today);
  return {
    ...{ from, to: today, lanes },
    away: awayTold(view, everyAway(sessions, today)),
    changes: setupChanges(view.setups).filter(({ day }) => day <= today),
    lessons: lessonsIn(view, today),
  };
}

/** The same of the days from one to another, both included: what lies in them, phrases and days away that reach into them told whole. */
export function partOfWhole(whole: WholeDiary, { from, to }: { readonly from: string; readonly to: string }): WholeDiary {
  const reaches = (one: { readonly from: string; readonly to: string }) => one.from <= to && one.to >= from;
  const isIn = ({ day }: { readonly day: string }) => day >= from && day <= to;
  return {
    from: from > whole.from ? from : whole.from,
    to: to < whole.to ? to : whole.to,
    lanes: whole.lanes.filter(reaches),
    away: whole.away.filter(reaches),
    changes: whole.changes.filter(isIn),
    lessons: whole.lessons.filter(isIn),
  };
}

/**
 * The clean tempo of a phrase as it was known at the ends of some of its days, spread evenly from the first on which it was known to the last; the
 * same figures as the picture of its clean tempo. Ascending; days on which it was not known are left out.
 * @param laneCount how many lanes the picture has: the more, the fewer days of each.
 */
export function laneTempi(results: readonly BlockResult[], { exerciseId, from, to }: PhraseLane, laneCount: number): readonly KnownTempo[] {
  if (exerciseId === null) return [];
  const own = results.filter((one) => one.exerciseId === exerciseId && one.runs > 0 && one.day <= to);
  const days = [...new Set(own.map(({ day }) => day))].filter((day) => day >= from).sort();
  const [first] = knownOn(own, exerciseId, days, { most: 1 });
  const [last] = knownOn(own, exerciseId, [...days].reverse(), { most: 1 });
  if (!first || !last) return [];
  const between = days.filter((day) => day > first.day && day < last.day);
  const count = Math.max(LANE_DAYS.least, Math.min(LANE_DAYS.most, Math.floor(LANE_DAYS.all / laneCount))) - 2;
  return [first, ...knownOn(own, exerciseId, spread(between, { first: first.day, last: last.day, count })), ...(last.day > first.day ? [last] : [])];
}

/** So many of the days, as evenly over time as they lie: those nearest after equal steps from the first to the last day. */
function spread(
  days: readonly string[],
  { first, last, count }: { readonly first: string; readonly last: string; readonly count: number },
): readonly string[] {
  if (days.length <= count) return days;
  const step = daysBetween(first, last) / (count + 1);
  const wanted = Array.from({ length: count }, (_, k) => addDays(first, Math.round((k + 1) * step)));
  return [...new Set(wanted.flatMap((day) => days.find((one) => one >= day) ?? []))];
}

function lanesOf(view: DiaryView, results: readonly BlockResult[], today: string): readonly PhraseLane[] {
  const begun = new Map(view.stickingPoints.map(({ id, day }) => [id, day]));
  const lanes = workedOn(view, results).map((one): PhraseLane => {
    const started = begun.get(one.stickingPointId) ?? one.from;
    const ended = one.state && one.state.is !== 'open' ? [one.state.day, one.to].sort().at(-1)! : today;
    return { ...one, from: [started, one.from].sort()[0]!, to: ended, lastPlayed: one.to };
  });
  return lanes.filter(({ from }) => from <= today).sort((a, b) => (a.from < b.from ? -1 : a.from > b.from ? 1 : 0));
}

/** A lesson is what the player calls one. */
const LESSON = /\blessons?\b/i;

const lessonsIn = ({ days }: DiaryView, today: string): readonly LessonTold[] =>
  [...days]
    .reverse()
    .flatMap(({ day, notes }) => notes.map(({ body }) => ({ day, text: body.text.trim() })))
    .filter(({ day, text }) => day <= today && LESSON.test(text));
