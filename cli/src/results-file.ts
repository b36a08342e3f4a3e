/** Results of an exercise from a table: how many runs were clean, at which tempo, on which day. */

import { type CsvRow, readCsv } from '@evenhand/core/csv';
import { isDay } from '@evenhand/core/diary';
import type { SaidProblem } from '@evenhand/core/words';
import { doubt, refuse } from './problems.ts';

/** A row of the table. */
export interface ResultRow {
  /** Civil day. */
  readonly day: string;
  readonly tempoBpm: number;
  readonly clean: number;
  readonly runs: number;
}

export interface ReadResults {
  /** By day, those of one day in the order of the file; null when nothing could be read. */
  readonly results: readonly ResultRow[] | null;
  /** Refused: the file. Doubtful: a line that was left out. */
  readonly problems: readonly SaidProblem[];
}

/** The columns there must be; their order is free, others are passed over. */
const COLUMNS = ['day', 'tempoBpm', 'clean', 'runs'] as const;
type Column = (typeof COLUMNS)[number];

/**
 * Reads the text of a table with a heading. Lines that say nothing possible are left out, each with its problem.
 * @param file its name, for what is said.
 */
export function readResults(text: string, file: string): ReadResults {
  const { rows, openQuoteLine } = readCsv(text);
  if (openQuoteLine !== null) return refused(refuse('results-quote-open', { file, line: openQuoteLine }));
  const [heading, ...lines] = rows;
  const names = heading?.fields.map((name) => name.trim()) ?? [];
  const missing = COLUMNS.filter((column) => !names.includes(column));
  if (!heading || missing.length > 0) return refused(refuse('results-heading', { file, missing, line: heading?.line ?? 1 }));
  const read = lines.map((row) => readRow(row, names, file));
  const problems = read.flatMap(({ problem }) => problem ?? []);
  const results = read.flatMap(({ value }) => value ?? []).sort((a, b) => (a.day < b.day ? -1 : Number(a.day > b.day)));
  return results.length > 0 ? { results, problems } : { results: null, problems: [...problems, refuse('results-none', { file })] };
}

const refused = (problem: SaidProblem): ReadResults => ({ results: null, problems: [problem] });

type ReadRow = { readonly value: ResultRow; readonly problem?: never } | { readonly value?: never; readonly problem: SaidProblem };

function readRow({ line, fields }: CsvRow, names: readonly string[], file: string): ReadRow {
  if (fields.length !== names.length)
    return { problem: doubt('results-fields', { file, line, fieldCount: fields.length, columnCount: names.length }) };
  const given = (column: Column) => fields[names.indexOf(column)]!.trim();
  const wrong = COLUMNS.find((column) => !fits(column, given(column)));
  if (wrong) return { problem: doubt('results-value', { file, line, column: wrong, given: given(wrong).slice(0, 40), wanted: WANTED[wrong] }) };
  const [tempoBpm, clean, runs] = (['tempoBpm', 'clean', 'runs'] as const).map((column) => Number(given(column))) as [number, number, number];
  if (clean > runs) return { problem: doubt('results-more-clean', { file, line, clean, runs }) };
  return { value: { day: given('day'), tempoBpm, clean, runs } };
}

const WANTED: Readonly<Record<Column, string>> = {
  day: 'a day there is, such as 2026-02-04',
  tempoBpm: 'a number above zero',
  clean: 'a whole number from 0',
  runs: 'a whole number from 0',
};

function fits(column: Column, given: string): boolean {
  if (column === 'day') return isDay(given);
  return column === 'tempoBpm' ? /^(?=.*[1-9])\d{1,4}(\.\d+)?$/.test(given) : /^\d{1,9}$/.test(given);
}
