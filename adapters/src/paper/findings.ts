/// <reference path="./pdfkit.d.ts" />
/** One page for a student: the sentence, the ring, the strokes one by one, what to try, and the cautions. */
import type { Language } from '@evenhand/core/words';
import type { StructureElement } from 'pdfkit';
import { heightOf, openPaper, type Paper, write } from './page.ts';
import * as P from './parameters.ts';
import { drawPicture, pictureSize, pictureWords } from './picture.ts';

/** A page in words; every text is ready to be read. */
export interface FindingsPage {
  readonly title: string;
  /** When, and how often it was heard. */
  readonly made: string;
  /** The sentence first. */
  readonly said: readonly string[];
  /** A picture of core, as SVG text. */
  readonly ring: string;
  readonly strokes: { readonly heading: string; readonly columns: readonly string[]; readonly rows: readonly (readonly string[])[] };
  readonly tries: { readonly heading: string; readonly lines: readonly string[] };
  readonly care: { readonly heading: string; readonly lines: readonly string[] };
}

/** What the file says of itself. */
export interface FindingsPaper {
  readonly title: string;
  readonly foot: string;
  /** What stands there when there is no page. */
  readonly nothing: string;
  readonly language?: Language;
  /** When it is made, ms since 1970: stands in the file. */
  readonly madeMs: number;
}

/** Findings as PDF on A4, tagged, a page for each phrase. The same pages give the same bytes. */
export async function findingsPaper(
  pages: readonly FindingsPage[],
  { title, foot, nothing, language = 'en', madeMs }: FindingsPaper,
): Promise<Uint8Array> {
  const paper = await openPaper({ title, language, madeMs, foot: (page) => `${foot}, ${page}` });
  if (pages.length === 0) write(paper, nothing, TEXT);
  pages.forEach((page, number) => {
    if (number > 0) paper.need(Number.POSITIVE_INFINITY);
    drawPage(paper, page);
  });
  return paper.finish();
}

const TEXT = { tag: 'P', face: 'regular', size: P.TEXT_SIZE } as const;
const HEADING = { tag: 'H2', face: 'semibold', size: P.HEADING_SIZE } as const;

function drawPage(paper: Paper, { title, made, said, ring, strokes, tries, care }: FindingsPage): void {
  write(paper, title, { tag: 'H1', face: 'semibold', size: P.TITLE_SIZE });
  if (made) write(paper, made, TEXT);
  paper.y += P.BLOCK_GAP / 2;
  said.forEach((sentence, i) => {
    write(paper, sentence, i === 0 ? { tag: 'P', face: 'semibold', size: P.SAID_SIZE } : TEXT);
    paper.y += P.GAP;
  });
  drawRing(paper, ring);
  section(paper, strokes.heading, () => drawTable(paper, strokes));
  section(paper, tries.heading, () => drawList(paper, tries.lines));
  section(paper, care.heading, () => drawList(paper, care.lines));
}

function section(paper: Paper, heading: string, draw: () => void): void {
  paper.y += P.BLOCK_GAP / 2;
  paper.need(heightOf(paper, heading, HEADING) + 3 * P.TEXT_SIZE);
  write(paper, heading, HEADING);
  paper.y += P.GAP;
  draw();
}

function drawRing(paper: Paper, ring: string): void {
  const { widthPx, heightPx } = pictureSize(ring);
  const height = (P.RING_WIDTH * heightPx) / widthPx;
  paper.need(height);
  const place = { x: paper.left + (paper.width - P.RING_WIDTH) / 2, y: paper.y, width: P.RING_WIDTH };
  paper.root.add(paper.doc.struct('Figure', { alt: pictureWords(ring) }, () => drawPicture(paper.doc, ring, place)));
  paper.y += height;
}

/** Rows are read across; a cell that is too long goes on below. */
function drawTable(paper: Paper, { columns, rows }: FindingsPage['strokes']): void {
  const table = paper.doc.struct('Table');
  paper.root.add(table);
  table.add(drawRow(paper, columns, true));
  for (const cells of rows) table.add(drawRow(paper, cells, false));
  table.end();
}

function drawRow(paper: Paper, cells: readonly string[], head: boolean): StructureElement {
  const { doc, left, width } = paper;
  const set = cells.map((text, at) => ({
    text,
    face: head || at === 0 ? ('semibold' as const) : ('regular' as const),
    x: left + width * P.STROKE_COLUMNS.slice(0, at).reduce((sum, share) => sum + share, 0),
    width: width * P.STROKE_COLUMNS[at]! - P.GAP,
  }));
  doc.fontSize(P.TEXT_SIZE);
  const height = Math.max(...set.map((cell) => doc.font(cell.face).heightOfString(cell.text, { width: cell.width })));
  paper.need(height);
  const y = paper.y;
  const row = doc.struct('TR');
  for (const cell of set) {
    row.add(
      doc.struct(head ? 'TH' : 'TD', () => {
        doc.font(cell.face).fontSize(P.TEXT_SIZE).text(cell.text, cell.x, y, { width: cell.width });
      }),
    );
  }
  row.end();
  paper.y += height + P.GAP / 2;
  return row;
}

function drawList(paper: Paper, lines: readonly string[]): void {
  for (const each of lines) {
    paper.need(heightOf(paper, each, TEXT));
    write(paper, each, TEXT);
    paper.y += P.GAP / 2;
  }
}
