/** A small table for a terminal: columns as wide as what stands in them. */

/**
 * @param rows of cells, the first row being the heading; every row as long as the first.
 * @returns lines without trailing spaces.
 */
export function table(rows: readonly (readonly string[])[]): string[] {
  const widths = rows[0]?.map((_, column) => Math.max(...rows.map((row) => row[column]!.length))) ?? [];
  return rows.map((row) => `  ${row.map((cell, column) => cell.padEnd(widths[column]!)).join('   ')}`.trimEnd());
}
