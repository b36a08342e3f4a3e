/** The clean tempo of an exercise day by day. */
import { addDays } from '../day.ts';
import { type CleanTempo, type CleanTempoEstimate, cleanTempo, type WeighedResult } from '../tempo/index.ts';
import { REMEMBERED_DAYS } from './parameters.ts';
import { rememberedBy } from './workedout.ts';

/** What came of a block. */
export interface ExerciseResult extends WeighedResult {
  readonly exerciseId: string;
  /** Practice day `YYYY-MM-DD`. */
  readonly day: string;
}

/** The clean tempo as it was known at the end of a day. */
export interface CurvePoint {
  readonly day: string;
  readonly estimate: CleanTempoEstimate;
  /** Runs of that day, and how many of them were clean. */
  readonly runs: number;
  readonly clean: number;
  /** False when no result of that day was heard. */
  readonly heard: boolean;
}

/**
 * One point for each day with results of the exercise, ascending, or for the `latestDays` of them, each then from the results of the year
 * before it: what is older weighs next to nothing. Each rests on the results up to that day, older ones counting less.
 * @param options `from` the first day that has a point, `YYYY-MM-DD`; unless said the first with results.
 */
export function tempoCurve(
  results: readonly ExerciseResult[],
  exerciseId: string,
  { latestDays = Number.POSITIVE_INFINITY, from = '' }: { readonly latestDays?: number; readonly from?: string } = {},
): readonly CurvePoint[] {
  const own = ofExercise(results, exerciseId);
  const days = daysOf(own);
  const asked = days.slice(-latestDays).filter((day) => day >= from);
  return asked.map((day) => {
    const today = own.filter((result) => result.day === day);
    const sum = (of: (result: ExerciseResult) => number) => today.reduce((total, result) => total + of(result), 0);
    const heard = today.some(({ byEar }) => byEar !== false);
    const estimate = estimateOn(day, own, latestDays < days.length);
    return { day, estimate, runs: sum(({ runs }) => runs), clean: sum(({ clean }) => clean), heard };
  });
}

/** A clean tempo with the practice day at whose end it was known. */
export type KnownTempo = CleanTempo & { readonly day: string };

/** The first and the last day at whose end the clean tempo was known, looked for from both ends; both null where it never was. */
export function firstAndLastKnown(
  results: readonly ExerciseResult[],
  exerciseId: string,
): readonly [first: KnownTempo | null, last: KnownTempo | null] {
  const own = ofExercise(results, exerciseId);
  const days = daysOf(own);
  const first = firstKnownAmong(days, own, 'all');
  return [first, first && firstKnownAmong([...days].reverse(), own, 'year')];
}

/** The last of them before a day; null where it was not known until then. */
export function knownBefore(results: readonly ExerciseResult[], exerciseId: string, before: string): KnownTempo | null {
  const own = ofExercise(results, exerciseId);
  return firstKnownAmong(
    daysOf(own)
      .filter((day) => day < before)
      .reverse(),
    own,
    'year',
  );
}

/** The clean tempo as it was known at the ends of some days, in their order, until so many were found; those on which it was not are left out. */
export function knownOn(
  results: readonly ExerciseResult[],
  exerciseId: string,
  days: readonly string[],
  { most = Number.POSITIVE_INFINITY }: { readonly most?: number } = {},
): readonly KnownTempo[] {
  const own = ofExercise(results, exerciseId);
  const known: KnownTempo[] = [];
  for (const day of days) {
    if (known.length >= most) break;
    const found = firstKnownAmong([day], own, 'year');
    if (found) known.push(found);
  }
  return known;
}

function firstKnownAmong(days: readonly string[], own: readonly ExerciseResult[], from: 'all' | 'year'): KnownTempo | null {
  for (const day of days) {
    const estimate = estimateOn(day, own, from === 'year');
    if (estimate.known) return { ...estimate, day };
  }
  return null;
}

const ofExercise = (results: readonly ExerciseResult[], exerciseId: string): readonly ExerciseResult[] =>
  results.filter((result) => result.exerciseId === exerciseId && result.runs > 0);

const daysOf = (own: readonly ExerciseResult[]): readonly string[] => [...new Set(own.map(({ day }) => day))].sort();

/** From all results up to a day, or those of the year before it. */
function estimateOn(day: string, own: readonly ExerciseResult[], ofYear: boolean): CleanTempoEstimate {
  const since = ofYear ? addDays(day, -REMEMBERED_DAYS) : '';
  const before = own.filter((result) => result.day > since && result.day <= day);
  return estimateFrom(before, day);
}

/** An estimate takes some milliseconds, and a curve sixty of them. */
const estimated = rememberedBy<CleanTempoEstimate>();

const estimateFrom = (before: readonly ExerciseResult[], day: string): CleanTempoEstimate => estimated(before, day, () => cleanTempo(before, day));
