/** Whether a sticking point can be closed: what is there, and what is missing. */
import { addDays } from '../day.ts';
import type { Family } from '../exercise/index.ts';
import { TARGET_SHARE } from '../tempo/index.ts';
import { CHECK_AFTER_DAYS, DAY_RUNS, DAYS_CLEAN, SAME_TEMPO_SHARE } from './parameters.ts';
import type { ReadyStatement } from './said.ts';
import type { ExerciseResult } from './tempocurve.ts';

/** An exercise that was chosen, and the tempo it is wanted at. */
export interface ChosenExercise {
  readonly exerciseId: string;
  readonly family: Family;
  readonly goalBpm: number;
}

/** What is asked. */
export interface ReadyRequest {
  /** The phrase itself, for the check weeks later. */
  readonly phrase: Omit<ChosenExercise, 'family'>;
  /** Exercises of the families chosen; a family holds when one of its exercises does. */
  readonly chosen: readonly ChosenExercise[];
  readonly results: readonly ExerciseResult[];
  /** Families that count; use always does. Unless said, every family of `chosen`. */
  readonly families?: readonly Family[];
  /** Families of which something was played, with exercises that are not among `chosen`; none unless said. */
  readonly tried?: readonly Family[];
}

export interface Readiness {
  readonly ready: boolean;
  readonly there: readonly ReadyStatement[];
  readonly missing: readonly ReadyStatement[];
}

/**
 * Ready when the phrase and every family chosen, use among them, were clean at the tempo wanted on two days, and the phrase again three weeks after the
 * last of them. A proposal: the player or the teacher decides.
 */
export function readyToClose(request: ReadyRequest): Readiness {
  const families = familiesThatCount(request);
  const held = families.map((family) => ({ family, days: bestDays(request, family) }));
  const phraseDays = cleanDays(request.results, request.phrase);
  const said = [ofPhrase(request, phraseDays), ...held.map(({ family, days }) => ofFamily(request, family, days))];
  const allHold = held.length > 0 && [{ days: phraseDays }, ...held].every(({ days }) => days.length >= DAYS_CLEAN);
  const since =
    [{ days: phraseDays }, ...held]
      .map(({ days }) => days[DAYS_CLEAN - 1] ?? '')
      .sort()
      .at(-1) ?? '';
  const check = allHold && families.includes('use') ? checkOf(request, since) : ({ code: 'progress-check-later', params: {} } as const);
  const all: readonly ReadyStatement[] = [
    ...said,
    ...(families.includes('use') ? [] : [{ code: 'progress-use-not-chosen', params: {} } as const]),
    check,
  ];
  const there = all.filter(({ code }) => THERE.includes(code));
  const missing = all.filter((statement) => !there.includes(statement));
  return { ready: missing.length === 0, there, missing };
}

const THERE: readonly ReadyStatement['code'][] = ['progress-phrase-holds', 'progress-family-holds', 'progress-check-held'];

/** A family that counts and has no exercise yet is missing all the same; that nothing uses the phrase in music is said by itself. */
function familiesThatCount({ chosen, families }: ReadyRequest): readonly Family[] {
  const there = [...new Set(chosen.map(({ family }) => family))];
  if (!families) return there;
  return [...new Set(families.filter((family) => family !== 'use')), ...there.filter((family) => family === 'use')];
}

/** Days on which an exercise of the family was clean at the tempo wanted, of the exercise that has most. Ascending. */
function bestDays({ chosen, results }: ReadyRequest, family: Family): readonly string[] {
  const all = chosen.filter((exercise) => exercise.family === family).map((exercise) => cleanDays(results, exercise));
  return all.sort((a, b) => b.length - a.length)[0] ?? [];
}

/** Days on which at least eight runs at the tempo wanted, or faster, were clean often enough. */
function cleanDays(results: readonly ExerciseResult[], { exerciseId, goalBpm }: Omit<ChosenExercise, 'family'>): readonly string[] {
  const atGoal = results.filter((result) => result.exerciseId === exerciseId && result.tempoBpm >= goalBpm * (1 - SAME_TEMPO_SHARE));
  const days = [...new Set(atGoal.map(({ day }) => day))].sort();
  return days.filter((day) => {
    const today = atGoal.filter((result) => result.day === day);
    const runs = today.reduce((sum, result) => sum + result.runs, 0);
    return runs >= DAY_RUNS && today.reduce((sum, result) => sum + result.clean, 0) >= TARGET_SHARE * runs;
  });
}

function ofPhrase({ phrase, results }: ReadyRequest, days: readonly string[]): ReadyStatement {
  const [first] = days;
  const { goalBpm } = phrase;
  if (!results.some(({ exerciseId }) => exerciseId === phrase.exerciseId)) return { code: 'progress-phrase-not-tried', params: {} };
  if (first === undefined) return { code: 'progress-phrase-not-yet', params: { goalBpm } };
  if (days.length < DAYS_CLEAN) return { code: 'progress-phrase-once', params: { goalBpm, day: first } };
  return { code: 'progress-phrase-holds', params: { goalBpm, days: days.length, daysHeard: daysHeardOf(results, days) } };
}

/** How many of some days have a result that was heard. */
const daysHeardOf = (results: readonly ExerciseResult[], days: readonly string[]): number =>
  days.filter((day) => results.some((result) => result.day === day && result.byEar !== false)).length;

function ofFamily({ chosen, results, tried = [] }: ReadyRequest, family: Family, days: readonly string[]): ReadyStatement {
  const [first] = days;
  const wasTried =
    tried.includes(family) ||
    chosen.some((exercise) => exercise.family === family && results.some(({ exerciseId }) => exerciseId === exercise.exerciseId));
  if (!wasTried) return { code: 'progress-family-not-tried', params: { family } };
  if (first === undefined) return { code: 'progress-family-not-yet', params: { family } };
  if (days.length < DAYS_CLEAN) return { code: 'progress-family-once', params: { family, day: first } };
  return { code: 'progress-family-holds', params: { family, days: days.length, daysHeard: daysHeardOf(results, days) } };
}

/** The phrase clean again weeks after everything held; or from when on that can be tried. */
function checkOf({ phrase, results }: ReadyRequest, since: string): ReadyStatement {
  const from = addDays(since, CHECK_AFTER_DAYS);
  const day = cleanDays(results, phrase).find((each) => each >= from);
  return day === undefined ? { code: 'progress-check-due', params: { from } } : { code: 'progress-check-held', params: { day } };
}

/**
 * Whether a closed sticking point came back: on two days after it was closed, the phrase at the tempo wanted was not clean often enough. One bad
 * day is one bad day. A proposal to open it again; nothing is opened by itself.
 * @returns null while there is nothing to say.
 */
export function cameBack(
  closedOn: string,
  { phrase, results }: Pick<ReadyRequest, 'phrase' | 'results'>,
): Extract<ReadyStatement, { readonly code: 'progress-came-back' }> | null {
  const later = results.filter(({ day }) => day > closedOn);
  const clean = cleanDays(later, phrase);
  const atGoal = later.filter(({ exerciseId, tempoBpm }) => exerciseId === phrase.exerciseId && tempoBpm >= phrase.goalBpm * (1 - SAME_TEMPO_SHARE));
  const runsOn = (day: string) => atGoal.filter((result) => result.day === day).reduce((sum, { runs }) => sum + runs, 0);
  const tried = [...new Set(atGoal.map(({ day }) => day))].filter((day) => runsOn(day) >= DAY_RUNS).sort();
  // Days since it was last clean, the closing included.
  const poor = tried.filter((day) => day > (clean.at(-1) ?? closedOn));
  const [day, second] = poor;
  return day === undefined || second === undefined ? null : { code: 'progress-came-back', params: { day, days: poor.length } };
}
