/** Which exercises and families are held against a phrase in the table of what rose with what. */
import { addDays, startOfWeek } from '../day.ts';
import type { Exercise } from '../exercise/index.ts';
import { RISEN_WEEKS } from './parameters.ts';
import type { BlockResult } from './results.ts';
import { type RisenRow, risenWith } from './risenwith.ts';

/** A row with what it is about: one exercise, or all of a family. */
export interface RisenOf extends RisenRow {
  readonly family: string;
  /** Null for a family. */
  readonly exercise: Exercise | null;
}

/** Exercises that something can be held against: those that were played at a fixed tempo as a reference, the latest first; else all. */
export function phrasesIn(results: readonly BlockResult[]): readonly Exercise[] {
  const latest = new Map([...results].reverse().map(({ exercise }) => [exercise.id, exercise]));
  const referred = new Set(results.filter(({ reference }) => reference).map(({ exerciseId }) => exerciseId));
  const all = [...latest.values()];
  const phrases = all.filter(({ id }) => referred.has(id));
  return phrases.length > 0 ? phrases : all;
}

/** Families with several exercises, then each exercise; the phrase itself is in none. Without weeks in common they are left out. */
export function risenRows(results: readonly BlockResult[], phrase: Exercise, today: string): readonly RisenOf[] {
  const since = addDays(startOfWeek(today), -7 * (RISEN_WEEKS - 1));
  const counted = results.filter(({ day }) => day >= since && day <= today);
  const exercises = [...new Map(counted.map(({ exercise }) => [exercise.id, exercise])).values()].filter(({ id }) => id !== phrase.id);
  const families = [...new Set(exercises.map(({ family }) => family))].flatMap((family) => {
    const exerciseIds = exercises.filter((exercise) => exercise.family === family).map(({ id }) => id);
    return exerciseIds.length > 1 ? [{ key: family, exerciseIds, family, exercise: null }] : [];
  });
  const alone = exercises.map((exercise) => ({ key: exercise.id, exerciseIds: [exercise.id], family: exercise.family, exercise }));
  const asked = [...families, ...alone];
  const rows = risenWith(counted, phrase.id, asked).map((row, k) => ({ ...row, ...asked[k]! }));
  const same = (a: RisenRow, b: RisenRow) => a.steps === b.steps && a.whileRising === b.whileRising && a.otherwise === b.otherwise;
  // A family of which one exercise alone is known says what that one says.
  const saysTheSame = (row: (typeof rows)[number]) =>
    row.exercise === null && rows.some((other) => other.exercise !== null && row.exerciseIds.includes(other.key) && same(row, other));
  return rows.filter((row) => row.steps > 0 && !saysTheSame(row)).map(({ exerciseIds: _, ...row }) => row);
}
