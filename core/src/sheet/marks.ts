/** A drawing as data: outlines, rectangles and letters, which SVG text and PDF pages are both made from. */

import { escaped } from '../markup.ts';

/** One thing drawn, in px, y downwards. */
export type Mark =
  /** Opens a group with these SVG attributes; a printed page needs none of them. */
  | { readonly kind: 'open'; readonly attributes: string }
  | { readonly kind: 'close' }
  /** A music glyph: a filled outline set at a place. */
  | { readonly kind: 'glyph'; readonly d: string; readonly x: number; readonly y: number; readonly size: number }
  /** A path, filled, or drawn with a line of this width. */
  | { readonly kind: 'path'; readonly d: string; readonly lineWidth: number | null }
  | { readonly kind: 'rect'; readonly x: number; readonly y: number; readonly width: number; readonly height: number }
  | {
      readonly kind: 'letters';
      readonly text: string;
      /** On the baseline. */
      readonly x: number;
      readonly y: number;
      readonly size: number;
      readonly anchor: 'start' | 'middle' | 'end';
      /** Less ink than the rest. */
      readonly soft: boolean;
    };

/** A number in SVG text: at most two decimals, never -0. */
export const num = (value: number): string => String(Math.round(value * 100) / 100 || 0);

/** How much of the ink soft letters have. Assumption: read on a second look, still 4.5 to 1 on paper. */
export const SOFT_INK = 0.6;

/** The marks as SVG elements, in the colour of the text around them. */
export const svgOf = (marks: readonly Mark[]): string => marks.map(elementOf).join('\n');

function elementOf(mark: Mark): string {
  switch (mark.kind) {
    case 'open':
      return mark.attributes === '' ? '<g>' : `<g ${mark.attributes}>`;
    case 'close':
      return '</g>';
    case 'glyph': {
      const scale = mark.size === 1 ? '' : ` scale(${num(mark.size)})`;
      return `<path transform="translate(${num(mark.x)} ${num(mark.y)})${scale}" d="${mark.d}"/>`;
    }
    case 'path':
      return mark.lineWidth === null
        ? `<path d="${mark.d}"/>`
        : `<path d="${mark.d}" fill="none" stroke="currentColor" stroke-width="${num(mark.lineWidth)}"/>`;
    case 'rect':
      return `<rect x="${num(mark.x)}" y="${num(mark.y)}" width="${num(mark.width)}" height="${num(mark.height)}"/>`;
    case 'letters': {
      const ink = mark.soft ? ` fill-opacity="${SOFT_INK}"` : '';
      return `<text x="${num(mark.x)}" y="${num(mark.y)}" font-size="${num(mark.size)}" text-anchor="${mark.anchor}"${ink}>${escaped(mark.text)}</text>`;
    }
  }
}
