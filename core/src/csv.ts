/** Comma-separated values as RFC 4180 has them, each row with the line it begins on. */

export interface CsvRow {
  /** Line of the file on which the row begins, from 1. */
  readonly line: number;
  readonly fields: readonly string[];
}

export interface ReadCsv {
  /** Rows in order; lines with nothing on them are passed over. */
  readonly rows: readonly CsvRow[];
  /** Line on which a quoted field began that never ended, or null. Its row is left out. */
  readonly openQuoteLine: number | null;
}

/**
 * Reads a table. Never throws. A byte order mark is passed over; lines may end in CR LF, LF or CR; the last needs no end.
 * @param text of the whole file.
 * @source [RFC4180] quotes around a field, doubled inside it; commas and ends of line between quotes belong to the field.
 * @departs an end of line without CR is one too, as most programs write it.
 */
export function readCsv(text: string): ReadCsv {
  const rows: CsvRow[] = [];
  let fields: string[] = [];
  let line = 1;
  let rowLine = 1;
  const cells = /(?:"((?:[^"]|"")*)"([^,\r\n]*)|([^,\r\n]*))(,|\r\n|\r|\n|$)/y;
  cells.lastIndex = text.startsWith('\uFEFF') ? 1 : 0;
  while (cells.lastIndex <= text.length) {
    if (isLeftOpen(text, cells.lastIndex)) return { rows, openQuoteLine: line };
    const [whole, quoted, after = '', plain = '', end = ''] = cells.exec(text)!;
    fields.push(quoted === undefined ? plain : quoted.replaceAll('""', '"') + after);
    line += whole.match(/\r\n|\r|\n/g)?.length ?? 0;
    if (end === ',') continue;
    if (fields.some((field) => field.trim() !== '')) rows.push({ line: rowLine, fields });
    fields = [];
    rowLine = line;
    if (end === '') break;
  }
  return { rows, openQuoteLine: null };
}

/** Whether the field that begins here is quoted and its quotes never end. */
function isLeftOpen(text: string, at: number): boolean {
  if (text[at] !== '"') return false;
  for (let from = at + 1; ; from += 2) {
    from = text.indexOf('"', from);
    if (from < 0) return true;
    if (text[from + 1] !== '"') return false;
  }
}

/** Rows as the text of a file: quotes where a field needs them, CR LF behind each row. @source [RFC4180] */
export const writeCsv = (rows: readonly (readonly string[])[]): string => rows.map((row) => `${row.map(quoted).join(',')}\r\n`).join('');

const quoted = (field: string): string => (/[",\r\n]|^\s|\s$/.test(field) ? `"${field.replaceAll('"', '""')}"` : field);

/**
 * Text that a spreadsheet would take for a formula, made harmless by an apostrophe before it; all other text as it is. `restored` takes it off again.
 * @source [OwaspCsv] = + - @, tab and carriage return at the beginning, their full-width forms too; blanks before them do not help.
 */
export const defused = (text: string): string => (FORMULA.test(text) ? `'${text}` : text);

/** The text that `defused` was given. */
export const restored = (text: string): string => (text.startsWith("'") && FORMULA.test(text.slice(1)) ? text.slice(1) : text);

/** An apostrophe that stands there already gets another, so that every text comes back as it was. */
const FORMULA = /^'*\s*[=+\-@\t\r\uFF1D\uFF0B\uFF0D\uFF20]/;
