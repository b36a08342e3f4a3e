/** A drawing context for VexFlow that writes SVG text: glyphs as outlines, everything in the colour of the text around it, no ids. */
import { Element, Font, type FontInfo, Metrics, MetricsDefaults, type RenderContext } from 'vexflow/core';
import { InvariantError } from '../errors.ts';
import { PIT_GLYPHS } from './glyphs.generated.ts';
import { TUPLET_SIZE } from './parameters.ts';

/** What the engraver draws with, beside what VexFlow calls. */
export interface Pen {
  /** The same pen as VexFlow knows it. */
  readonly context: RenderContext;
  /** Opens a group; `attributes` as they stand in the tag. Close it again. */
  open(attributes: string): void;
  close(): void;
  /** One music glyph with its origin at x, y. `size` 1 is four staff spaces to the em. */
  glyph(code: string, place: { readonly x: number; readonly y: number; readonly size?: number }): void;
  /** A filled rectangle. */
  rect(box: { readonly x: number; readonly y: number; readonly width: number; readonly height: number }): void;
  /** Centred letters on a baseline. */
  letters(text: string, place: { readonly x: number; readonly y: number; readonly size: number; readonly anchor?: 'start' | 'middle' | 'end' }): void;
  /** What VexFlow's next note heads belong to: one tag per head, in the order it draws them. */
  headTags(tags: readonly string[]): void;
  /** Everything drawn so far. */
  svg(): string;
}

/** The em that glyph outlines are stored for, px. */
const EM = 40;

/** A number in SVG text: at most two decimals, never -0. */
export const num = (value: number): string => String(Math.round(value * 100) / 100 || 0);

/** Text safe inside SVG elements and attributes. */
export const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

/** A fresh pen. */
export function makePen(): Pen {
  const out: string[] = [];
  let tags: string[] = [];
  const glyph: Pen['glyph'] = (code, { x, y, size = 1 }) => {
    const scale = size === 1 ? '' : ` scale(${num(size)})`;
    out.push(`<path transform="translate(${num(x)} ${num(y)})${scale}" d="${outlineOf(code).outline}"/>`);
  };
  const open = (attributes: string) => out.push(attributes === '' ? '<g>' : `<g ${attributes}>`);
  const close = () => out.push('</g>');
  const context = contextFor({ out, glyph, open, close, nextHead: () => tags.shift() });
  return {
    context,
    open,
    close,
    glyph,
    rect: ({ x, y, width, height }) => out.push(`<rect x="${num(x)}" y="${num(y)}" width="${num(width)}" height="${num(height)}"/>`),
    letters: (text, { x, y, size, anchor = 'middle' }) =>
      out.push(`<text x="${num(x)}" y="${num(y)}" font-size="${num(size)}" text-anchor="${anchor}">${escaped(text)}</text>`),
    headTags: (next) => {
      tags = [...next];
    },
    svg: () => out.join('\n'),
  };
}

interface Sink {
  readonly out: string[];
  readonly glyph: Pen['glyph'];
  readonly open: (attributes: string) => void;
  readonly close: () => void;
  readonly nextHead: () => string | undefined;
}

/** The calls VexFlow makes. Colours, shadows and ids are left out: the sheet takes the colour of the page. */
function contextFor({ out, glyph, open, close, nextHead }: Sink): RenderContext {
  let path = '';
  let lineWidth = 1;
  let size = 1;
  const open_: boolean[] = [];
  const saved: { readonly lineWidth: number; readonly size: number }[] = [];
  const same = () => context;
  const draw = (text: string) => {
    path += text;
    return context;
  };
  const calls = {
    save: () => {
      saved.push({ lineWidth, size });
      return context;
    },
    restore: () => {
      ({ lineWidth, size } = saved.pop() ?? { lineWidth, size });
      return context;
    },
    setLineWidth: (width: number) => {
      lineWidth = width;
      return context;
    },
    setFont: (font: FontInfo) => {
      size = Font.convertSizeToPixelValue(font.size ?? EM) / EM;
      return context;
    },
    getFont: () => '',
    setFillStyle: same,
    setBackgroundFillStyle: same,
    setStrokeStyle: same,
    setShadowColor: same,
    setShadowBlur: same,
    setLineCap: same,
    setLineDash: same,
    scale: same,
    resize: same,
    clear: () => undefined,
    beginPath: () => {
      path = '';
      return context;
    },
    moveTo: (x: number, y: number) => draw(`M${num(x)} ${num(y)}`),
    lineTo: (x: number, y: number) => draw(`L${num(x)} ${num(y)}`),
    quadraticCurveTo: (x1: number, y1: number, x: number, y: number) => draw(`Q${num(x1)} ${num(y1)} ${num(x)} ${num(y)}`),
    bezierCurveTo: (x1: number, y1: number, x2: number, y2: number, x: number, y: number) =>
      draw(`C${num(x1)} ${num(y1)} ${num(x2)} ${num(y2)} ${num(x)} ${num(y)}`),
    closePath: () => draw('Z'),
    /** Only whole circles are ever asked for: the dots of a repeat. */
    arc: (x: number, y: number, radius: number) => draw(`M${num(x - radius)} ${num(y)}${half(radius, 2 * radius)}${half(radius, -2 * radius)}Z`),
    fill: () => {
      out.push(`<path d="${path}"/>`);
      return context;
    },
    stroke: () => {
      out.push(`<path d="${path}" fill="none" stroke="currentColor" stroke-width="${num(lineWidth)}"/>`);
      return context;
    },
    rect: same,
    fillRect: (x: number, y: number, width: number, height: number) => {
      out.push(`<rect x="${num(x)}" y="${num(y)}" width="${num(width)}" height="${num(height)}"/>`);
      return context;
    },
    clearRect: same,
    pointerRect: same,
    fillText: (text: string, x: number, y: number) => {
      let at = x;
      for (const code of text) {
        glyph(code, { x: at, y, size });
        at += outlineOf(code).width * size;
      }
      return context;
    },
    measureText: (text: string) => measure(text, size),
    openGroup: (kind?: string) => {
      const tag = kind === 'notehead' ? nextHead() : undefined;
      open_.push(tag !== undefined);
      if (tag !== undefined) open(tag);
    },
    closeGroup: () => {
      if (open_.pop()) close();
    },
    openRotation: () => undefined,
    closeRotation: () => undefined,
    add: () => undefined,
  };
  const context = calls as unknown as RenderContext;
  return context;
}

const half = (radius: number, across: number): string => `a${num(radius)} ${num(radius)} 0 1 0 ${num(across)} 0`;

function outlineOf(code: string) {
  const found = PIT_GLYPHS[code];
  if (!found) throw new InvariantError(`no outline for ${code.codePointAt(0)?.toString(16)}; add it to scripts/glyphs.mjs`);
  return found;
}

/** Size of a glyph around its origin, px. */
export const glyphBox = (code: string): readonly [number, number, number, number] => outlineOf(code).box;

/** Advance and extent of some glyphs; letters that are no music glyphs are never measured. */
function measure(text: string, size: number) {
  const glyphs = Array.from(text, (code) => PIT_GLYPHS[code]).filter((found) => found !== undefined);
  const width = glyphs.reduce((sum, found) => sum + found.width, 0) * size;
  const top = Math.min(...glyphs.map(({ box }) => box[1]), glyphs.length ? Infinity : 0) * size;
  const bottom = Math.max(...glyphs.map(({ box }) => box[3]), glyphs.length ? -Infinity : 0) * size;
  return {
    width,
    actualBoundingBoxLeft: 0,
    actualBoundingBoxRight: width,
    actualBoundingBoxAscent: -top,
    actualBoundingBoxDescent: bottom,
    fontBoundingBoxAscent: -top,
    fontBoundingBoxDescent: bottom,
    emHeightAscent: -top,
    emHeightDescent: bottom,
    alphabeticBaseline: 0,
    hangingBaseline: 0,
    ideographicBaseline: 0,
  };
}

/**
 * VexFlow measures glyphs on a canvas; ours answers from the same table that is drawn, so Node and browser agree.
 * Its canvas and sizes are global to it, so this is called before each sheet.
 */
export function prepareVexFlow(): void {
  const ruler = { font: '', measureText: (text: string) => measure(text, Font.convertSizeToPixelValue(sizeIn(ruler.font)) / EM) };
  const canvas = { getContext: () => ruler };
  MetricsDefaults.Tuplet.fontSize = TUPLET_SIZE;
  Metrics.clear('Tuplet');
  Element.setTextMeasurementCanvas(canvas as unknown as Parameters<typeof Element.setTextMeasurementCanvas>[0]);
}

/** The size in a CSS font text such as `30pt Name`. */
const sizeIn = (font: string): string => /[\d.]+(?:pt|px)/.exec(font)?.[0] ?? '30pt';
