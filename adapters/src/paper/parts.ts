/// <reference path="./pdfkit.d.ts" />
/** Parts that written pages share: headings, paragraphs, tables that are read across. */
import type { StructureElement } from 'pdfkit';
import { heightOf, type Paper, write } from './page.ts';
import * as P from './parameters.ts';

/** A table in words. */
export interface PaperTable {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** A heading with its sentences. */
export interface SheetPart {
  readonly heading: string;
  readonly lines: readonly string[];
}

/** Plain text. */
export const TEXT = { tag: 'P', face: 'regular', size: P.TEXT_SIZE } as const;
/** A heading within a page. */
const HEADING = { tag: 'H2', face: 'semibold', size: P.HEADING_SIZE } as const;

/** A heading with what stands under it, never parted from its first line. */
export function section(paper: Paper, heading: string, draw: () => void): void {
  paper.y += (P.BLOCK_GAP / 2) * paper.scale;
  paper.need(heightOf(paper, heading, HEADING) + 3 * P.TEXT_SIZE);
  write(paper, heading, HEADING);
  paper.y += P.GAP;
  draw();
}

/** Rows are read across; a cell that is too long goes on below. @param shares of the width, a column each. */
export function drawTable(paper: Paper, { columns, rows }: PaperTable, shares: readonly number[]): void {
  const table = paper.doc.struct('Table');
  paper.root.add(table);
  table.add(drawRow(paper, columns, { head: true, shares }));
  for (const cells of rows) table.add(drawRow(paper, cells, { head: false, shares }));
  table.end();
}

function drawRow(
  paper: Paper,
  cells: readonly string[],
  { head, shares }: { readonly head: boolean; readonly shares: readonly number[] },
): StructureElement {
  const { doc, left, width, scale } = paper;
  const set = cells.map((text, at) => ({
    text,
    face: head || at === 0 ? ('semibold' as const) : ('regular' as const),
    x: left + width * shares.slice(0, at).reduce((sum, share) => sum + share, 0),
    width: width * shares[at]! - P.GAP,
  }));
  doc.fontSize(P.TEXT_SIZE * scale);
  const height = Math.max(...set.map((cell) => doc.font(cell.face).heightOfString(cell.text, { width: cell.width })));
  paper.need(height);
  const y = paper.y;
  const row = doc.struct('TR');
  for (const cell of set) {
    row.add(
      doc.struct(head ? 'TH' : 'TD', () => {
        doc
          .font(cell.face)
          .fontSize(P.TEXT_SIZE * scale)
          .text(cell.text, cell.x, y, { width: cell.width });
      }),
    );
  }
  row.end();
  paper.y += height + P.GAP / 2;
  return row;
}

/** Each a paragraph. */
export function drawLines(paper: Paper, lines: readonly string[]): void {
  for (const each of lines) {
    paper.need(heightOf(paper, each, TEXT));
    write(paper, each, TEXT);
    paper.y += P.GAP / 2;
  }
}
