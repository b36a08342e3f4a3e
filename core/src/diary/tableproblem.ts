/** What can be wrong with a table of diary entries, each with the line on which it stands. */
import type { Problem } from '../problem.ts';
import type { TableColumn } from './table.ts';

interface OnLine {
  readonly [name: string]: string | number;
  /** Line of the file on which the row begins, from 1. */
  readonly line: number;
}

export type TableProblem =
  | Problem<'table-no-day', Record<string, never>>
  | Problem<'table-quote-open', OnLine>
  | Problem<'table-day', OnLine & { readonly given: string }>
  | Problem<'table-at', OnLine & { readonly given: string }>
  | Problem<'table-number', OnLine & { readonly column: TableColumn; readonly given: string }>
  | Problem<'table-clean-more', OnLine & { readonly clean: number; readonly runs: number }>
  | Problem<'table-choice', OnLine & { readonly column: TableColumn; readonly given: string; readonly choices: string }>
  | Problem<'table-id', OnLine & { readonly column: TableColumn; readonly given: string }>
  | Problem<'table-twice', OnLine & { readonly first: number }>
  | Problem<'table-sticking', OnLine & { readonly given: string }>
  | Problem<'table-drums', OnLine & { readonly given: string }>
  | Problem<'table-nothing', OnLine>;

/** What each code tells. */
export type TableParams = { readonly [P in TableProblem as P['code']]: P['params'] };

/** A row that is left out. */
export const leftOut = <Code extends Exclude<TableProblem['code'], 'table-no-day'>>(code: Code, params: TableParams[Code]): TableProblem =>
  ({ code, severity: 'doubtful', at: params.line, params }) as unknown as TableProblem;
