/// <reference path="./pdfkit.d.ts" />
/** Pictures of core on a PDF page. */
import type PDFDocument from 'pdfkit';
import { type Attributes, type Drawn, drawnIn, numberIn, pictureSize, plain, setText } from '../drawn/index.ts';

export { pictureSize };

/** Where a picture goes. */
export interface PicturePlace {
  /** Left top corner on the page, points. */
  readonly x: number;
  readonly y: number;
  /** Width on the page, points; the height follows. */
  readonly width: number;
}

/** What its title and description say: the alternative text of the figure. */
export const pictureWords = (svg: string): string =>
  ['title', 'desc']
    .map((name) => plain(new RegExp(`<${name}[^>]*>([^<]*)</${name}>`).exec(svg)?.[1] ?? ''))
    .filter((words) => words !== '')
    .join('. ');

/** Draws a picture of core (`picture` stage) in black; what is filled with a colour of its own is left out. */
export function drawPicture(doc: PDFDocument, svg: string, { x, y, width }: PicturePlace): void {
  doc
    .save()
    .translate(x, y)
    .scale(width / pictureSize(svg).widthPx);
  for (const one of drawnIn(svg)) {
    doc.save().translate(one.move.x, one.move.y).scale(one.move.scale);
    if (one.kind === 'path') drawPath(doc, one.of);
    else if (one.kind === 'line') drawLine(doc, one.of);
    else if (one.kind === 'text') drawText(doc, one);
    doc.restore();
  }
  doc.restore();
}

function drawPath(doc: PDFDocument, of: Attributes): void {
  if (!of.d) return;
  doc.path(of.d);
  if (of.fill === 'none') stroked(doc, of).stroke();
  else doc.fillOpacity(numberIn(of, 'fill-opacity', 1)).fill();
}

const stroked = (doc: PDFDocument, of: Attributes): PDFDocument =>
  doc.lineWidth(numberIn(of, 'stroke-width', 1)).strokeOpacity(numberIn(of, 'stroke-opacity', 1));

function drawLine(doc: PDFDocument, of: Attributes): void {
  stroked(doc, of)
    .moveTo(numberIn(of, 'x1', 0), numberIn(of, 'y1', 0))
    .lineTo(numberIn(of, 'x2', 0), numberIn(of, 'y2', 0))
    .stroke();
}

function drawText(doc: PDFDocument, one: Drawn): void {
  const { letters, sizePx, weight, leftShare, xPx, baselinePx } = setText(one);
  doc.font(weight).fontSize(sizePx);
  const left = xPx - leftShare * doc.widthOfString(letters);
  const outlined = one.of.fill === 'none';
  if (outlined) doc.lineWidth(numberIn(one.of, 'stroke-width', 1));
  doc.text(letters, left, baselinePx, { lineBreak: false, baseline: 'alphabetic', ...(outlined ? { fill: false, stroke: true } : {}) });
}
