/** SVG as text: elements, attributes, escaping, and the frame every picture stands in. */

import { escaped } from '../markup.ts';

/** Values of attributes; undefined ones are left out, numbers are rounded to hundredths. */
export type Attributes = Readonly<Record<string, string | number | undefined>>;

/** An element with its children, which are SVG text already. */
export function element(name: string, attributes: Attributes, ...children: readonly string[]): string {
  const written = Object.entries(attributes).flatMap(([key, value]) => (value === undefined ? [] : [` ${key}="${escaped(shown(value))}"`]));
  return children.length === 0 ? `<${name}${written.join('')}/>` : `<${name}${written.join('')}>${children.join('')}</${name}>`;
}

/** A piece of text at a point. */
export const textAt = (text: string, attributes: Attributes): string => element('text', attributes, escaped(text));

/** A straight line. */
export const line = (from: readonly [number, number], to: readonly [number, number], attributes: Attributes = {}): string =>
  element('line', { x1: from[0], y1: from[1], x2: to[0], y2: to[1], ...attributes });

/** What every picture needs. */
export interface Frame {
  readonly widthPx: number;
  readonly heightPx: number;
  /** Unique on its page: ids of title and description begin with it. */
  readonly id: string;
  readonly title: string;
  readonly desc: string;
}

/**
 * A whole picture. Everything is drawn in `currentColor`, so that light, dark and print work without a style; classes let a page say more.
 * There is no style attribute, which a strict content policy would refuse.
 */
export function svg(frame: Frame, ...children: readonly string[]): string {
  const { widthPx, heightPx, id, title, desc } = frame;
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: 'picture',
      viewBox: `0 0 ${shown(widthPx)} ${shown(heightPx)}`,
      width: widthPx,
      height: heightPx,
      role: 'img',
      'aria-labelledby': `${id}-title ${id}-desc`,
      fill: 'currentColor',
      'font-family': 'system-ui, sans-serif',
    },
    element('title', { id: `${id}-title` }, escaped(title)),
    element('desc', { id: `${id}-desc` }, escaped(desc)),
    ...children,
  );
}

const shown = (value: string | number): string => (typeof value === 'number' ? String(Math.round(value * 100) / 100) : value);
