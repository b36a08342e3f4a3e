/// <reference path="./pdfkit.d.ts" />
/** Marks of an engraved sheet on a PDF page: the same outlines as in the picture. */
import { type Mark, SOFT_INK } from '@evenhand/core/sheet';
import type PDFDocument from 'pdfkit';

/** Where marks go. */
export interface MarkPlace {
  /** Left top corner on the page, points. */
  readonly x: number;
  readonly y: number;
  /** Points per px of the sheet. */
  readonly scale: number;
  /** Only what begins between these heights of the sheet, px. */
  readonly fromPx: number;
  readonly toPx: number;
  /** Name of the face for letters. */
  readonly face: string;
}

/** Draws the marks between two heights of a sheet. */
export function drawMarks(doc: PDFDocument, marks: readonly Mark[], { x, y, scale, fromPx, toPx, face }: MarkPlace): void {
  doc.save().translate(x, y).scale(scale).translate(0, -fromPx);
  doc.font(face);
  const inside = (at: number) => at >= fromPx && at < toPx;
  for (const mark of marks) {
    if (mark.kind === 'glyph' && inside(mark.y)) drawGlyph(doc, mark);
    else if (mark.kind === 'rect' && inside(mark.y)) doc.rect(mark.x, mark.y, mark.width, mark.height).fill();
    else if (mark.kind === 'letters' && inside(mark.y)) drawLetters(doc, mark);
    else if (mark.kind === 'path' && mark.d !== '' && inside(heightIn(mark.d))) drawPath(doc, mark);
  }
  doc.restore();
}

type Of<Kind extends Mark['kind']> = Extract<Mark, { readonly kind: Kind }>;

function drawGlyph(doc: PDFDocument, { d, x, y, size }: Of<'glyph'>): void {
  doc.save().translate(x, y);
  if (size !== 1) doc.scale(size);
  doc.path(d).fill().restore();
}

function drawPath(doc: PDFDocument, { d, lineWidth }: Of<'path'>): void {
  doc.path(d);
  if (lineWidth === null) doc.fill();
  else doc.lineWidth(lineWidth).stroke();
}

/** Height at which a path begins. */
const heightIn = (d: string): number => Number(/^M\S+ ([-\d.]+)/.exec(d)?.[1] ?? 0);

function drawLetters(doc: PDFDocument, { text, x, y, size, anchor, soft }: Of<'letters'>): void {
  doc.fontSize(size);
  const share = { start: 0, middle: 0.5, end: 1 }[anchor];
  if (soft) doc.fillOpacity(SOFT_INK);
  doc.text(text, x - share * doc.widthOfString(text), y, { lineBreak: false, baseline: 'alphabetic' });
  if (soft) doc.fillOpacity(1);
}
