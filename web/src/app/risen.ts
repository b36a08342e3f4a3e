/** What rose with what as a table of the screen: rows for exercises and for whole families, sorted, and as CSV. */
import { defused, writeCsv } from '@evenhand/core/csv';
import { addDays, startOfWeek } from '@evenhand/core/day';
import type { Exercise, Family } from '@evenhand/core/exercise';
import { type BlockResult, type RisenRow, risenWith } from '@evenhand/core/progress';
import { saveFile } from '../backup/download.ts';
import { labels, subdivisionName } from './labels.ts';
import { risenLabels } from './labelscourse.ts';
import { say } from './said.ts';

/** Weeks that are looked at, the latest. Assumption: a year. */
const WEEKS = 52;

/** A row with what it is called. */
export interface NamedRow extends RisenRow {
  readonly name: string;
}

export type RisenColumn = 'name' | 'steps' | 'togetherSteps' | 'whileRising' | 'otherwise';

/** Exercises that something can be held against: those that were played at a fixed tempo as a reference, the latest first; else all. */
export function phrasesIn(results: readonly BlockResult[]): readonly Exercise[] {
  const latest = new Map([...results].reverse().map(({ exercise }) => [exercise.id, exercise]));
  const referred = new Set(results.filter(({ reference }) => reference).map(({ exerciseId }) => exerciseId));
  const all = [...latest.values()];
  const phrases = all.filter(({ id }) => referred.has(id));
  return phrases.length > 0 ? phrases : all;
}

/** Families with several exercises, then each exercise; the phrase itself is in none. Without weeks in common they are left out. */
export function risenRows(results: readonly BlockResult[], phrase: Exercise, today: string): readonly NamedRow[] {
  const since = addDays(startOfWeek(today), -7 * (WEEKS - 1));
  const counted = results.filter(({ day }) => day >= since && day <= today);
  const exercises = [...new Map(counted.map(({ exercise }) => [exercise.id, exercise])).values()].filter(({ id }) => id !== phrase.id);
  const names = new Map(exercises.map((exercise) => [exercise.id, `${say(exercise.title)}, ${subdivisionName(exercise.perBeat)}`]));
  const families = [...new Set(exercises.map(({ family }) => family))].flatMap((family) => {
    const exerciseIds = exercises.filter((exercise) => exercise.family === family).map(({ id }) => id);
    return exerciseIds.length > 1 ? [{ key: family, exerciseIds, name: risenLabels.family(labels.shelf.families[family as Family]) }] : [];
  });
  const asked = [...families, ...exercises.map(({ id }) => ({ key: id, exerciseIds: [id], name: names.get(id)! }))];
  const rows = risenWith(counted, phrase.id, asked).map((row, k) => ({ ...row, ...asked[k]! }));
  const same = (a: RisenRow, b: RisenRow) => a.steps === b.steps && a.whileRising === b.whileRising && a.otherwise === b.otherwise;
  // A family of which one exercise alone is known says what that one says.
  const alone = (row: (typeof rows)[number]) =>
    row.exerciseIds.length > 1 && rows.some((other) => other.exerciseIds.length === 1 && row.exerciseIds.includes(other.key) && same(row, other));
  return rows.filter((row) => row.steps > 0 && !alone(row)).map(({ exerciseIds: _, ...row }) => row);
}

/** The rows by a column; what is unknown comes last. */
export function sortedBy(rows: readonly NamedRow[], column: RisenColumn, falling: boolean): readonly NamedRow[] {
  const way = falling ? -1 : 1;
  return [...rows].sort((a, b) => {
    const [one, other] = [a[column], b[column]];
    if (one === null || other === null) return (one === null ? 1 : 0) - (other === null ? 1 : 0);
    return way * (typeof one === 'string' ? one.localeCompare(String(other)) : one - Number(other));
  });
}

/** A change from week to week: `+2.1 %`. */
export const changeName = (share: number | null): string => (share === null ? '–' : `${share < 0 ? '−' : '+'}${Math.abs(100 * share).toFixed(1)} %`);

/** Saves the table for a spreadsheet. */
export function saveRisen(rows: readonly NamedRow[], phrase: Exercise): void {
  const { columns, words } = risenLabels;
  const percent = (share: number | null) => (share === null ? '' : (100 * share).toFixed(2));
  const lines = rows.map(({ name, steps, roseSteps, togetherSteps, whileRising, otherwise, word }) => [
    defused(name),
    ...[steps, roseSteps, togetherSteps].map(String),
    ...[percent(whileRising), percent(otherwise), words[word]],
  ]);
  const heads = [
    columns.name,
    columns.steps,
    risenLabels.rose,
    columns.togetherSteps,
    `${columns.whileRising}, %`,
    `${columns.otherwise}, %`,
    columns.word,
  ];
  saveFile(new Blob([writeCsv([heads, ...lines])], { type: 'text/csv' }), `rose-with-${phrase.sticking.replace(/[^A-Za-z]/g, '') || 'phrase'}.csv`);
}
