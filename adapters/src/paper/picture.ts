/// <reference path="./pdfkit.d.ts" />
/** Pictures of core on a PDF page: the few kinds of SVG elements that core's own pictures are made of. */
import type PDFDocument from 'pdfkit';

/** Where a picture goes. */
export interface PicturePlace {
  /** Left top corner on the page, points. */
  readonly x: number;
  readonly y: number;
  /** Width on the page, points; the height follows. */
  readonly width: number;
}

/** Width and height of a picture, px. */
export function pictureSize(svg: string): { readonly widthPx: number; readonly heightPx: number } {
  const [, , widthPx, heightPx] = (/viewBox="([^"]+)"/.exec(svg)?.[1] ?? '0 0 1 1').split(' ').map(Number);
  return { widthPx: widthPx!, heightPx: heightPx! };
}

/** What its title and description say: the alternative text of the figure. */
export const pictureWords = (svg: string): string =>
  ['title', 'desc']
    .map((name) => plain(new RegExp(`<${name}[^>]*>([^<]*)</${name}>`).exec(svg)?.[1] ?? ''))
    .filter((words) => words !== '')
    .join('. ');

/** Draws a picture of core (`picture` stage): groups, paths, lines and texts; anything else is left out. */
export function drawPicture(doc: PDFDocument, svg: string, { x, y, width }: PicturePlace): void {
  doc
    .save()
    .translate(x, y)
    .scale(width / pictureSize(svg).widthPx);
  for (const [, name, written, text] of svg.matchAll(/<(path|line|text)\b([^>]*?)\/?>(?:([^<]*)<\/text>)?/g)) {
    const of = attributesOf(written!);
    if (name === 'path') drawPath(doc, of);
    else if (name === 'line') drawLine(doc, of);
    else drawText(doc, of, plain(text ?? ''));
  }
  doc.restore();
}

type Attributes = Readonly<Record<string, string>>;

const attributesOf = (written: string): Attributes =>
  Object.fromEntries(Array.from(written.matchAll(/([\w-]+)="([^"]*)"/g), ([, key, value]) => [key!, value!]));

const plain = (text: string): string => text.replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&quot;', '"').replaceAll('&amp;', '&');

const numberIn = (of: Attributes, name: string, otherwise: number): number => Number(of[name] ?? otherwise);

function drawPath(doc: PDFDocument, of: Attributes): void {
  if (!of.d) return;
  const [, dx = '0', dy = '0'] = /translate\(([-\d.]+)[ ,]([-\d.]+)\)/.exec(of.transform ?? '') ?? [];
  doc.save().translate(Number(dx), Number(dy)).path(of.d);
  if (of.fill === 'none')
    doc
      .lineWidth(numberIn(of, 'stroke-width', 1))
      .strokeOpacity(numberIn(of, 'stroke-opacity', 1))
      .stroke();
  else doc.fillOpacity(numberIn(of, 'fill-opacity', 1)).fill();
  doc.restore();
}

function drawLine(doc: PDFDocument, of: Attributes): void {
  doc
    .save()
    .lineWidth(numberIn(of, 'stroke-width', 1))
    .strokeOpacity(numberIn(of, 'stroke-opacity', 1));
  doc
    .moveTo(numberIn(of, 'x1', 0), numberIn(of, 'y1', 0))
    .lineTo(numberIn(of, 'x2', 0), numberIn(of, 'y2', 0))
    .stroke();
  doc.restore();
}

/** Half the height of capitals, by which a line of letters lies below its middle. A property of Source Serif: capitals are .67 of the size. */
const HALF_CAPITAL = 0.335;

function drawText(doc: PDFDocument, of: Attributes, text: string): void {
  const size = numberIn(of, 'font-size', 12);
  // The face has no script l; in a serif face an l cannot be taken for a line.
  const letters = text.replaceAll('ℓ', 'l');
  doc
    .save()
    .font(numberIn(of, 'font-weight', 400) >= 600 ? 'semibold' : 'regular')
    .fontSize(size);
  const share = { start: 0, middle: 0.5, end: 1 }[of['text-anchor'] ?? 'start'] ?? 0;
  const left = numberIn(of, 'x', 0) - share * doc.widthOfString(letters);
  const baseline = numberIn(of, 'y', 0) + (of['dominant-baseline'] === 'central' ? HALF_CAPITAL * size : 0);
  const outlined = of.fill === 'none';
  if (outlined) doc.lineWidth(numberIn(of, 'stroke-width', 1));
  doc.text(letters, left, baseline, { lineBreak: false, baseline: 'alphabetic', ...(outlined ? { fill: false, stroke: true } : {}) });
  doc.restore();
}
