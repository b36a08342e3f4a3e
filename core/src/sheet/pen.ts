/** A drawing context for VexFlow that gathers marks: glyphs as outlines, no colours, no ids. */
import { Font, type FontInfo, type RenderContext } from 'vexflow/core';
import { type Mark, num } from './marks.ts';
import { EM, measure, outlineOf } from './ruler.ts';

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
  /** Letters on a baseline, centred unless said. */
  letters(text: string, place: LetterPlace): void;
  /** What VexFlow's next note heads belong to: one tag per head, in the order it draws them. */
  headTags(tags: readonly string[]): void;
  /** Everything drawn so far. */
  marks(): readonly Mark[];
}

/** Where letters stand. */
export interface LetterPlace {
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly anchor?: 'start' | 'middle' | 'end';
  readonly soft?: boolean;
}

/** A fresh pen. */
export function makePen(): Pen {
  const out: Mark[] = [];
  let tags: string[] = [];
  const glyph: Pen['glyph'] = (code, { x, y, size = 1 }) => out.push({ kind: 'glyph', d: outlineOf(code).outline, x, y, size });
  const open = (attributes: string) => out.push({ kind: 'open', attributes });
  const close = () => out.push({ kind: 'close' });
  const sink: Sink = { out, glyph, open, close, nextHead: () => tags.shift() };
  return {
    context: contextFor(sink),
    open,
    close,
    glyph,
    rect: (box) => out.push({ kind: 'rect', ...box }),
    letters: (text, { x, y, size, anchor = 'middle', soft = false }) => out.push({ kind: 'letters', text, x, y, size, anchor, soft }),
    headTags: (next) => {
      tags = [...next];
    },
    marks: () => out,
  };
}

interface Sink {
  readonly out: Mark[];
  readonly glyph: Pen['glyph'];
  readonly open: (attributes: string) => void;
  readonly close: () => void;
  readonly nextHead: () => string | undefined;
}

/** What VexFlow sets before it draws. */
interface Ink {
  lineWidth: number;
  size: number;
}

/** The calls VexFlow makes. */
function contextFor(sink: Sink): RenderContext {
  const ink: Ink = { lineWidth: 1, size: 1 };
  const context = {} as RenderContext;
  const same = () => context;
  return Object.assign(context, idleCalls(same), inkCalls(ink, same), pathCalls(sink, ink, same), textCalls(sink, ink, same), headCalls(sink));
}

function textCalls({ glyph }: Sink, ink: Ink, context: () => object) {
  return {
    fillText: (letters: string, x: number, y: number) => {
      let at = x;
      for (const code of letters) {
        glyph(code, { x: at, y, size: ink.size });
        at += outlineOf(code).width * ink.size;
      }
      return context();
    },
    measureText: (letters: string) => measure(letters, ink.size),
  };
}

/** Colours, shadows and ids are left out: the sheet takes the colour of the page. */
function idleCalls(context: () => object) {
  const same = () => context();
  return {
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
    rect: same,
    clearRect: same,
    pointerRect: same,
    clear: () => undefined,
    openRotation: () => undefined,
    closeRotation: () => undefined,
    add: () => undefined,
  };
}

function inkCalls(ink: Ink, context: () => object) {
  const saved: Ink[] = [];
  return {
    save: () => {
      saved.push({ ...ink });
      return context();
    },
    restore: () => {
      Object.assign(ink, saved.pop());
      return context();
    },
    setLineWidth: (width: number) => {
      ink.lineWidth = width;
      return context();
    },
    setFont: (font: FontInfo) => {
      ink.size = Font.convertSizeToPixelValue(font.size ?? EM) / EM;
      return context();
    },
  };
}

function pathCalls({ out }: Sink, ink: Ink, context: () => object) {
  let d = '';
  const draw = (text: string) => {
    d += text;
    return context();
  };
  const put = (mark: Mark) => {
    out.push(mark);
    return context();
  };
  return {
    beginPath: () => {
      d = '';
      return context();
    },
    moveTo: (x: number, y: number) => draw(`M${num(x)} ${num(y)}`),
    lineTo: (x: number, y: number) => draw(`L${num(x)} ${num(y)}`),
    quadraticCurveTo: (x1: number, y1: number, x: number, y: number) => draw(`Q${num(x1)} ${num(y1)} ${num(x)} ${num(y)}`),
    bezierCurveTo: (x1: number, y1: number, x2: number, y2: number, x: number, y: number) =>
      draw(`C${num(x1)} ${num(y1)} ${num(x2)} ${num(y2)} ${num(x)} ${num(y)}`),
    closePath: () => draw('Z'),
    /** Only whole circles are ever asked for: the dots of a repeat. */
    arc: (x: number, y: number, radius: number) => draw(`M${num(x - radius)} ${num(y)}${half(radius, 2 * radius)}${half(radius, -2 * radius)}Z`),
    fill: () => put({ kind: 'path', d, lineWidth: null }),
    stroke: () => put({ kind: 'path', d, lineWidth: ink.lineWidth }),
    /** VexFlow draws the feet of lower brackets upwards: with a height below zero, which SVG does not know. */
    fillRect: (x: number, y: number, width: number, height: number) =>
      put({ kind: 'rect', x: Math.min(x, x + width), y: Math.min(y, y + height), width: Math.abs(width), height: Math.abs(height) }),
  };
}

/** Groups are opened around note heads that were tagged, and around nothing else. */
function headCalls({ nextHead, open, close }: Sink) {
  const opened: boolean[] = [];
  return {
    openGroup: (kind?: string) => {
      const tag = kind === 'notehead' ? nextHead() : undefined;
      opened.push(tag !== undefined);
      if (tag !== undefined) open(tag);
    },
    closeGroup: () => {
      if (opened.pop()) close();
    },
  };
}

const half = (radius: number, across: number): string => `a${num(radius)} ${num(radius)} 0 1 0 ${num(across)} 0`;

/** Size of a glyph around its origin, px. */
export const glyphBox = (code: string): readonly [number, number, number, number] => outlineOf(code).box;
