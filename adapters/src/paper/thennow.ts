/// <reference path="./pdfkit.d.ts" />
/** Then and now on paper: two rings beside each other, what changed, and the strokes one by one, on one page. */
import { InvariantError } from '@evenhand/core/errors';
import { openPaper, type Paper, type PrintedAs, write } from './page.ts';
import * as P from './parameters.ts';
import { drawLines, drawTable, type SheetPart, section, TEXT } from './parts.ts';
import { drawPicture, pictureSize, pictureWords } from './picture.ts';

/** A stroke ring with what stands over it. */
export interface CaptionedRing {
  readonly caption: string;
  /** A picture of core, as SVG text. */
  readonly svg: string;
}

/** The page in words; every text is ready to be read. */
export interface ThenNowSheet {
  readonly title: string;
  /** What it is. */
  readonly name: string;
  readonly rings: readonly [CaptionedRing, CaptionedRing];
  readonly changed: SheetPart;
  /** What was different in the set-up; none where it was the same. */
  readonly setup: readonly string[];
  readonly strokes: {
    readonly heading: string;
    readonly columns: readonly string[];
    /** `sure`: something changed in it for sure. */
    readonly rows: readonly { readonly sure: boolean; readonly cells: readonly string[] }[];
    readonly note: string;
    /** What is said of so many rows that are left out. */
    readonly rest: (count: number) => string;
  };
}

/**
 * The sheet as PDF, tagged, on one page: where it would not be one in smaller type, then with fewer strokes, smaller rings and fewer sentences. The
 * same sheet gives the same bytes.
 */
export async function thenNowPaper(sheet: ThenNowSheet, printed: PrintedAs): Promise<Uint8Array> {
  for (const fit of FITS) {
    const paper = await drawn(sheet, printed, fit);
    // Faces are written at the end, which takes longest: only of the one that is kept.
    if (paper.pageCount === 1 || fit === FITS.at(-1)) return paper.finish();
  }
  throw new InvariantError('a sheet is drawn in the last fit at the latest');
}

/** How a sheet is made to fit. */
interface Fit {
  /** Of type and of rings. */
  readonly scale: number;
  readonly ringShare: number;
  /** Which strokes are in the table, and how many strokes and sentences there are at most. */
  readonly rows: 'all' | 'sure';
  readonly most: number;
}

const FITS: readonly Fit[] = [
  { scale: 1, ringShare: 1, rows: 'all', most: Number.POSITIVE_INFINITY },
  { scale: P.SMALLER_TYPE, ringShare: P.SMALLER_TYPE, rows: 'all', most: Number.POSITIVE_INFINITY },
  { scale: P.SMALLER_TYPE, ringShare: P.SMALLEST_RING, rows: 'all', most: Number.POSITIVE_INFINITY },
  { scale: P.SMALLER_TYPE, ringShare: P.SMALLEST_RING, rows: 'sure', most: Number.POSITIVE_INFINITY },
  ...[8, 4].map((most): Fit => ({ scale: P.SMALLER_TYPE, ringShare: P.SMALLEST_RING, rows: 'sure', most })),
];

async function drawn(sheet: ThenNowSheet, printed: PrintedAs, { scale, ringShare, rows: which, most }: Fit): Promise<Paper> {
  const paper = await openPaper({ ...printed, title: `${sheet.name}: ${sheet.title}`, foot: () => '', scale });
  write(paper, sheet.title, { tag: 'H1', face: 'semibold', size: P.TITLE_SIZE });
  write(paper, sheet.name, TEXT);
  paper.y += P.GAP * 2;
  drawRings(paper, sheet.rings, ringShare);
  section(paper, sheet.changed.heading, () => drawLines(paper, [...sheet.changed.lines.slice(0, most), ...sheet.setup]));
  section(paper, sheet.strokes.heading, () => {
    const { columns, note, rest } = sheet.strokes;
    const rows = sheet.strokes.rows.filter(({ sure }) => sure || which === 'all').slice(0, most);
    const left = sheet.strokes.rows.length - rows.length;
    if (rows.length > 0) drawTable(paper, { columns, rows: rows.map(({ cells }) => cells) }, P.CHANGE_COLUMNS);
    paper.y += P.GAP;
    drawLines(paper, left > 0 ? [rest(left), note] : [note]);
  });
  return paper;
}

/** Beside each other, each under its caption. @param share of the width there is. */
function drawRings(paper: Paper, rings: ThenNowSheet['rings'], share: number): void {
  const { doc } = paper;
  const width = (paper.width - P.BLOCK_GAP) / 2;
  const top = paper.y;
  const captionPt = P.TEXT_SIZE * 1.3 * paper.scale;
  rings.forEach(({ caption, svg }, k) => {
    const x = paper.left + k * (width + P.BLOCK_GAP);
    paper.root.add(
      doc.struct('P', () => {
        doc.font('semibold').fontSize(captionPt).text(caption, x, top, { width, align: 'center', lineBreak: false });
      }),
    );
    const { widthPx, heightPx } = pictureSize(svg);
    const drawnWidth = width * share;
    paper.root.add(
      doc.struct('Figure', { alt: pictureWords(svg) }, () => {
        drawPicture(doc, svg, { x: x + (width - drawnWidth) / 2, y: top + captionPt * 1.5, width: drawnWidth });
      }),
    );
    paper.y = Math.max(paper.y, top + captionPt * 1.5 + (drawnWidth * heightPx) / widthPx);
  });
}
