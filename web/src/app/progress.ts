/** What the diary shows over weeks: exercises with their results, and whether the phrase can be closed. */
import type { DiaryView, StickingPointBody } from '@evenhand/core/diary';
import type { Exercise, Family } from '@evenhand/core/exercise';
import { type Counting, countingOf, goalFor, phraseOfPlan } from '@evenhand/core/plan';
import {
  type BlockResult,
  type CurvePoint,
  cameBack,
  isPhraseItself,
  type ReadyStatement,
  resultsOf,
  type TempoCourse,
  tempoCourse,
  tempoCurve,
} from '@evenhand/core/progress';
import { type Forecast, forecast } from '@evenhand/core/tempo';
import { atRest, atRestInTurn } from './atrest.ts';
import { fetchPictures } from './pictures.ts';
import type { StandingPlan } from './savedplan.ts';
import { markedLanes, wholeOf, workOutLane, workOutMoves } from './whole.ts';

/** An exercise over the days. */
export interface ExerciseDays {
  readonly exercise: Exercise;
  /** What the phrase is called that it is; null for any other exercise. */
  readonly name: string | null;
  /** The tempo it is wanted at, by its own phrase or the plan at hand; null where neither says. */
  readonly goalBpm: number | null;
  /** False once the phrase was closed or put aside: nothing is foretold then. */
  readonly goesOn: boolean;
  /** Days with results, in all. */
  readonly dayCount: number;
  /** The latest days; worked out when first asked for. */
  readonly points: readonly CurvePoint[];
  /** So many of the latest days. */
  pointsOf(days: number): readonly CurvePoint[];
  /** What its course carries; worked out when first asked for. */
  readonly course: TempoCourse;
}

/** So many days with results are shown of an exercise, the latest. Assumption: more than a season of practice; each is worked out from all before it. */
export const SHOWN_DAYS = 60;

/** Exercises with results: the phrase at hand, the other phrases, then the exercises; of each kind the one played last first. */
export function exerciseDays(
  results: readonly BlockResult[],
  standing: StandingPlan | null,
  stickingPoints: DiaryView['stickingPoints'] = [],
): readonly ExerciseDays[] {
  const once = new Map<string, Exercise>();
  const days = new Map<string, Set<string>>();
  for (const { exerciseId, exercise, day, runs } of [...results].reverse()) {
    if (!once.has(exerciseId)) once.set(exerciseId, exercise);
    if (runs > 0) days.set(exerciseId, (days.get(exerciseId) ?? new Set()).add(day));
  }
  const phraseId = standing ? phraseOfPlan(standing)?.id : undefined;
  const all = [...once.values()].map((exercise) => ({ exercise, wanted: wantedOf(exercise, standing, stickingPoints) }));
  const rank = ({ exercise, wanted }: (typeof all)[number]) => (exercise.id === phraseId ? 0 : wanted.phrase ? 1 : 2);
  const ordered = all.sort((a, b) => rank(a) - rank(b));
  return ordered.map(({ exercise, wanted: { phrase: _, ...wanted } }) => {
    let points: readonly CurvePoint[] | null = null;
    let course: TempoCourse | null = null;
    return {
      exercise,
      ...wanted,
      dayCount: days.get(exercise.id)?.size ?? 0,
      pointsOf: (latestDays) => tempoCurve(results, exercise.id, { latestDays }),
      get points() {
        points ??= tempoCurve(results, exercise.id, { latestDays: SHOWN_DAYS });
        return points;
      },
      get course() {
        course ??= tempoCourse(results, exercise);
        return course;
      },
    };
  });
}

/** By the phrase that an exercise is; else by the plan at hand, where it has the exercise. */
function wantedOf(
  exercise: Exercise,
  standing: StandingPlan | null,
  stickingPoints: DiaryView['stickingPoints'],
): Pick<ExerciseDays, 'name' | 'goalBpm' | 'goesOn'> & { readonly phrase: boolean } {
  const own = [...stickingPoints].reverse().find(({ body }) => isPhraseItself(exercise, body))?.body;
  const planned = standing?.exercises.some(({ id }) => id === exercise.id) ? goalFor(exercise, standing) : null;
  const goesOn = (own?.state?.is ?? 'open') === 'open';
  return { phrase: own !== undefined, name: own && own.name !== own.sticking ? own.name : null, goalBpm: planned ?? own?.tempoBpm ?? null, goesOn };
}

/** Diaries of which that was worked out with which the pages of progress begin. */
const workedOut = new WeakSet<DiaryView>();

/** Whether the first picture of the pages of progress can be drawn at once. */
export const isWorkedOut = (diary: DiaryView): boolean => workedOut.has(diary);

let latest: DiaryView | null = null;

/** What the pages of progress begin with takes a while after years: it is worked out while nothing else is to be done, day by day, and remembered. */
export function workOutAtRest(diary: DiaryView, standing: StandingPlan | null, today: string): void {
  latest = diary;
  const isWanted = () => latest === diary;
  atRest(() => {
    const results = isWanted() ? resultsOf(diary) : [];
    const first = exerciseDays(results, standing, diary.stickingPoints)[0];
    const id = first?.exercise.id ?? '';
    const days = [...new Set(results.filter(({ exerciseId }) => exerciseId === id).map(({ day }) => day))].sort().slice(-SHOWN_DAYS);
    // The latest first; those that are worked out already take no time.
    const steps = [...days].reverse().map((day) => () => void tempoCurve(results, id, { latestDays: SHOWN_DAYS, from: day }));
    const whole = isWanted() ? wholeOf(diary, results, today) : null;
    const lanes = whole?.lanes.map((lane) => () => workOutLane(whole, lane, results)) ?? [];
    const moves = whole ? markedLanes(whole).map((lane) => () => workOutMoves(whole, lane, results)) : [];
    atRestInTurn([fetchPictures, ...steps, () => void first?.course, ...lanes, () => void workedOut.add(diary), ...moves], isWanted);
  });
}

/** What is still to be worked out is left, and nothing of the diary held. */
export function stopWorkingOut(): void {
  latest = null;
}

/** When an exercise may reach the tempo wanted, or why that cannot be said; null without a plan or without a day of results. */
export function forecastOf({ points, goalBpm, goesOn }: ExerciseDays, today: string): Forecast | null {
  if (goalBpm === null || !goesOn || points.length === 0) return null;
  const told = points.flatMap(({ day, estimate }) => (estimate.known ? [{ day, ...estimate }] : []));
  return forecast(told, goalBpm, today);
}

/** What is chosen when a family is to count, or no longer; null when all do, so that families that open later count too. */
export function closingWith(standing: Pick<StandingPlan, 'plan' | 'exercises'>, { family, counts }: Counting): readonly Family[] | null {
  const next = countingOf(standing).map((one) => (one.family === family ? { family, counts } : one));
  return next.every((one) => one.counts) ? null : next.flatMap((one) => (one.counts ? [one.family] : []));
}

/** Word that the phrase of a plan came back after it was closed; null while there is none, or the point is not closed. */
export function cameBackOf(standing: StandingPlan, point: StickingPointBody, results: readonly BlockResult[]): ReadyStatement | null {
  const phrase = phraseOfPlan(standing);
  if (!phrase || point.state?.is !== 'closed') return null;
  return cameBack(point.state.day, { phrase: { exerciseId: phrase.id, goalBpm: standing.goalBpm }, results });
}
