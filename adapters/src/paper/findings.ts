/// <reference path="./pdfkit.d.ts" />
/** One page for a student: the sentence, the ring, the strokes one by one, what to try, and the cautions. */
import { openPaper, type Paper, type PrintedAs, write } from './page.ts';
import * as P from './parameters.ts';
import { drawLines, drawTable, type PaperTable, type SheetPart, section, TEXT } from './parts.ts';
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
  readonly strokes: PaperTable & { readonly heading: string };
  readonly tries: SheetPart;
  readonly care: SheetPart;
}

/** What the file says of itself. */
export interface FindingsPaper extends PrintedAs {
  readonly title: string;
  readonly foot: string;
  /** What stands there when there is no page. */
  readonly nothing: string;
}

/** Findings as PDF, tagged, a page for each phrase. The same pages give the same bytes. */
export async function findingsPaper(pages: readonly FindingsPage[], { title, foot, nothing, ...printed }: FindingsPaper): Promise<Uint8Array> {
  const paper = await openPaper({ ...printed, title, foot: (page) => `${foot}, ${page}` });
  if (pages.length === 0) write(paper, nothing, TEXT);
  pages.forEach((page, number) => {
    if (number > 0) paper.need(Number.POSITIVE_INFINITY);
    drawPage(paper, page);
  });
  return paper.finish();
}

function drawPage(paper: Paper, { title, made, said, ring, strokes, tries, care }: FindingsPage): void {
  write(paper, title, { tag: 'H1', face: 'semibold', size: P.TITLE_SIZE });
  if (made) write(paper, made, TEXT);
  paper.y += P.BLOCK_GAP / 2;
  said.forEach((sentence, i) => {
    write(paper, sentence, i === 0 ? { tag: 'P', face: 'semibold', size: P.SAID_SIZE } : TEXT);
    paper.y += P.GAP;
  });
  drawRing(paper, ring);
  section(paper, strokes.heading, () => drawTable(paper, strokes, P.STROKE_COLUMNS));
  section(paper, tries.heading, () => drawLines(paper, tries.lines));
  section(paper, care.heading, () => drawLines(paper, care.lines));
}

function drawRing(paper: Paper, ring: string): void {
  const { widthPx, heightPx } = pictureSize(ring);
  const height = (P.RING_WIDTH * heightPx) / widthPx;
  paper.need(height);
  const place = { x: paper.left + (paper.width - P.RING_WIDTH) / 2, y: paper.y, width: P.RING_WIDTH };
  paper.root.add(paper.doc.struct('Figure', { alt: pictureWords(ring) }, () => drawPicture(paper.doc, ring, place)));
  paper.y += height;
}
