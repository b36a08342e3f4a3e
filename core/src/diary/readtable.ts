/** A table of diary entries is read: each row that says something possible, and a problem with its line for each that does not. */
import { type CsvRow, readCsv, restored } from '../csv.ts';
import { isDay } from '../day.ts';
import { type ExerciseContent, FAMILIES, type Family, ownExercise, readContent } from '../exercise/index.ts';
import type { Reading } from '../problem.ts';
import { readSticking } from '../sticking/index.ts';
import { LONGEST_MINUTES } from './parameters.ts';
import type { Felt } from './record.ts';
import type { SavedExercise } from './saved.ts';
import { TABLE_COLUMNS, type TableColumn } from './table.ts';
import { leftOut, type TableParams, type TableProblem } from './tableproblem.ts';

/** What every row says; null where its cell is empty. */
export interface TableRow {
  readonly line: number;
  readonly kind: 'session' | 'block' | 'note' | null;
  readonly id: string | null;
  readonly day: string;
  readonly atMs: number | null;
  readonly zone: string | null;
  readonly sessionId: string | null;
  readonly minutes: number | null;
  readonly text: string;
  readonly felt: Felt | null;
  readonly by: 'ear' | 'word' | 'hand' | null;
  readonly ended: 'done' | 'stopped' | 'hurt' | null;
  /** Of a block. */
  readonly exercise: SavedExercise | null;
  readonly tempoBpm: number | null;
  readonly clean: number | null;
  readonly runs: number | null;
}

/**
 * Reads a table. The heading names its columns, in any order; `day` there must be, others may be missing, and ones that are not known are passed over.
 * @returns refused only without a column `day`; each row that cannot be is left out, with a doubtful problem.
 */
export function readTable(text: string): Reading<readonly TableRow[], TableProblem> {
  const { rows, openQuoteLine } = readCsv(text);
  const [heading, ...lines] = rows;
  const columns = (heading?.fields ?? []).map((name) => TABLE_COLUMNS.find((column) => column.toLowerCase() === name.trim().toLowerCase()) ?? null);
  if (!columns.includes('day')) return { value: null, problems: [{ code: 'table-no-day', severity: 'refused', params: {} }] };
  const seen = new Map<string, number>();
  const read = lines.map((row) => once(readRow(row, columns), seen));
  const open = openQuoteLine === null ? [] : [leftOut('table-quote-open', { line: openQuoteLine })];
  return {
    value: read.flatMap((one) => ('code' in one ? [] : [one])),
    problems: [...read.flatMap((one) => ('code' in one ? [one] : [])), ...open],
  };
}

/** Of two rows with one id the second is left out. */
function once(row: TableRow | TableProblem, seen: Map<string, number>): TableRow | TableProblem {
  if ('code' in row || row.id === null) return row;
  const first = seen.get(row.id);
  if (first !== undefined) return leftOut('table-twice', { line: row.line, first });
  seen.set(row.id, row.line);
  return row;
}

/** Stops the reading of a row. */
class RowProblem extends Error {
  constructor(readonly problem: TableProblem) {
    super(problem.code);
  }
}

const stop = <Code extends Parameters<typeof leftOut>[0]>(code: Code, params: TableParams[Code]): never => {
  throw new RowProblem(leftOut(code, params));
};

function readRow({ line, fields }: CsvRow, columns: readonly (TableColumn | null)[]): TableRow | TableProblem {
  const cell = (column: TableColumn): string => restored(fields[columns.indexOf(column)] ?? '');
  try {
    return rowOf(line, cell);
  } catch (error) {
    if (error instanceof RowProblem) return error.problem;
    throw error;
  }
}

type CellOf = (column: TableColumn) => string;

function rowOf(line: number, cell: CellOf): TableRow {
  const kind = choice({ line, cell }, 'kind', ['session', 'block', 'note']);
  const day = cell('day').trim();
  if (!isDay(day)) stop('table-day', { line, given: day });
  const minutes = numberIn({ line, cell }, 'minutes', { most: LONGEST_MINUTES });
  const text = cell('text');
  const felt = choice<Felt>({ line, cell }, 'felt', ['easy', 'asUsual', 'hard', 'tired']);
  const [clean, runs] = [numberIn({ line, cell }, 'clean', { whole: true }), numberIn({ line, cell }, 'runs', { whole: true })];
  if (clean !== null && runs !== null && clean > runs) stop('table-clean-more', { line, clean, runs });
  const isBlock = kind === 'block' || (kind === null && cell('sticking').trim() !== '');
  if (!isBlock && kind !== 'session' && kind !== 'note' && minutes === null && text === '' && felt === null) stop('table-nothing', { line });
  return {
    line,
    kind: isBlock ? 'block' : kind,
    id: idIn({ line, cell }, 'id'),
    sessionId: idIn({ line, cell }, 'session'),
    day,
    atMs: momentIn({ line, cell }),
    zone: cell('zone') === '' ? null : cell('zone'),
    minutes,
    text,
    felt,
    by: choice({ line, cell }, 'by', ['ear', 'word', 'hand']),
    ended: choice({ line, cell }, 'ended', ['done', 'stopped', 'hurt']),
    exercise: isBlock ? exerciseIn({ line, cell }) : null,
    tempoBpm: isBlock ? (numberIn({ line, cell }, 'tempoBpm', { least: 1 }) ?? stop('table-number', { line, column: 'tempoBpm', given: '' })) : null,
    clean,
    runs,
  };
}

interface At {
  readonly line: number;
  readonly cell: CellOf;
}

function choice<Choice extends string>({ line, cell }: At, column: TableColumn, choices: readonly Choice[]): Choice | null {
  const given = cell(column).trim();
  if (given === '') return null;
  return choices.find((one) => one === given) ?? stop('table-choice', { line, column, given, choices: choices.join(', ') });
}

/** A number with point or comma, not below 0. */
function numberIn(
  { line, cell }: At,
  column: TableColumn,
  { least = 0, most = Number.MAX_SAFE_INTEGER, whole = false }: { readonly least?: number; readonly most?: number; readonly whole?: boolean },
): number | null {
  const given = cell(column).trim();
  if (given === '') return null;
  const value = /^\d+([.,]\d+)?$/.test(given) ? Number(given.replace(',', '.')) : Number.NaN;
  const fits = value >= least && value <= most && (!whole || Number.isInteger(value));
  return fits ? value : stop('table-number', { line, column, given });
}

function idIn({ line, cell }: At, column: 'id' | 'session'): string | null {
  const given = cell(column).trim();
  if (given === '') return null;
  return /^[0-9a-f]{32}$/.test(given) ? given : stop('table-id', { line, column, given });
}

function momentIn({ line, cell }: At): number | null {
  const given = cell('at').trim();
  if (given === '') return null;
  const atMs = /^[+-]?\d{4,6}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z$/.test(given) ? Date.parse(given) : Number.NaN;
  return Number.isFinite(atMs) ? atMs : stop('table-at', { line, given });
}

function exerciseIn({ line, cell }: At): SavedExercise {
  const given = cell('sticking').trim();
  const sticking = readSticking(given).value ?? stop('table-sticking', { line, given });
  const perBeat =
    numberIn({ line, cell }, 'perBeat', { least: 1, most: 64, whole: true }) ?? stop('table-number', { line, column: 'perBeat', given: '' });
  const drums = cell('drums').trim();
  const [, beats, unit] =
    /^(\d{1,2})\/(\d{1,2})$/.exec(cell('meter').trim() || '4/4') ??
    stop('table-choice', { line, column: 'meter', given: cell('meter'), choices: '4/4, 3/4, 6/8' });
  const meter = { beats: Number(beats), unit: Number(unit) };
  const content: ExerciseContent = readContent(sticking, { perBeat, surfaces: drums, meter }).value ?? stop('table-drums', { line, given: drums });
  const family = choice<Family>({ line, cell }, 'family', FAMILIES);
  return ownExercise(content, '', family === null ? {} : { family });
}
