/** What rose with what as a table of the screen: rows with their names, sorted, and as CSV. */
import type { Exercise, Family } from '@evenhand/core/exercise';
import { type BlockResult, type RisenOf, risenRows } from '@evenhand/core/progress';
import { saveFile } from '../backup/download.ts';
import { labels, subdivisionName } from './labels.ts';
import { risenLabels } from './labelscourse.ts';
import { say, spoken } from './said.ts';

/** A row with what it is called. */
export interface NamedRow extends RisenOf {
  readonly name: string;
}

export type RisenColumn = 'name' | 'steps' | 'togetherSteps' | 'whileRising' | 'otherwise';

/** The rows with their names. */
export const namedRows = (results: readonly BlockResult[], phrase: Exercise, today: string): readonly NamedRow[] =>
  risenRows(results, phrase, today).map((row) => ({ ...row, name: nameOf(row) }));

const nameOf = ({ exercise, family }: RisenOf): string =>
  exercise ? `${say(exercise.title)}, ${subdivisionName(exercise.perBeat)}` : risenLabels.family(labels.shelf.families[family as Family]);

/** Exercises of the same days as the phrase that no row tells of. */
export function leftOut(results: readonly BlockResult[], phrase: Exercise, rows: readonly NamedRow[]): readonly string[] {
  const days = new Set(results.flatMap(({ exerciseId, day }) => (exerciseId === phrase.id ? [day] : [])));
  const beside = new Map(results.filter(({ day }) => days.has(day)).map(({ exercise }) => [exercise.id, exercise]));
  return [...beside.values()].filter(({ id }) => id !== phrase.id && !rows.some(({ key }) => key === id)).map(({ title }) => say(title));
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
export async function saveRisen(rows: readonly NamedRow[], phrase: Exercise): Promise<void> {
  const { risenCsv } = await import('@evenhand/adapters/report');
  const name = `rose-with-${phrase.sticking.replace(/[^A-Za-z]/g, '') || 'phrase'}.csv`;
  saveFile(new Blob([risenCsv(rows, phrase, spoken())], { type: 'text/csv' }), name);
}
