/** Pictures of core as a list of what is to be drawn, for whatever draws without a browser: the few kinds of SVG elements that core's own pictures are made of. */

/** One thing to draw; its lengths are its own until they are moved. */
export interface Drawn {
  readonly kind: 'path' | 'line' | 'rect' | 'text';
  readonly of: Attributes;
  /** Of a text, what it says. */
  readonly text: string;
  /** Where the origin lies in the whole picture, px, and how large a px of its own is there. */
  readonly move: Move;
}

export type Attributes = Readonly<Record<string, string>>;

export interface Move {
  readonly x: number;
  readonly y: number;
  readonly scale: number;
}

/** Width and height of a picture, px. */
export function pictureSize(svg: string): { readonly widthPx: number; readonly heightPx: number } {
  const [, , widthPx, heightPx] = (/viewBox="([^"]+)"/.exec(svg)?.[1] ?? '0 0 1 1').split(' ').map(Number);
  return { widthPx: widthPx!, heightPx: heightPx! };
}

/** Everything that is to be drawn, in order: paths, lines, rectangles and texts, moved as the groups around them say; anything else is left out. */
export function drawnIn(svg: string): readonly Drawn[] {
  const drawn: Drawn[] = [];
  const around: Move[] = [{ x: 0, y: 0, scale: 1 }];
  for (const [, closing, name, written, selfClosed, text] of svg.matchAll(/<(\/?)(path|line|rect|text|g|svg)\b([^>]*?)(\/?)>([^<]*)/g)) {
    const isGroup = name === 'g' || name === 'svg';
    if (closing) {
      if (isGroup) around.pop();
      continue;
    }
    const of = attributesOf(written!);
    const move = moved(around.at(-1)!, of.transform ?? '');
    if (!isGroup) drawn.push({ kind: name as Drawn['kind'], of, text: name === 'text' ? plain(text!) : '', move });
    else if (!selfClosed) around.push(move);
  }
  return drawn;
}

/** An attribute that is a number. */
export const numberIn = (of: Attributes, name: string, otherwise: number): number => Number(of[name] ?? otherwise);

/** Text as it is read. */
export const plain = (text: string): string =>
  text.replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&quot;', '"').replaceAll('&amp;', '&');

const attributesOf = (written: string): Attributes =>
  Object.fromEntries(Array.from(written.matchAll(/([\w-]+)="([^"]*)"/g), ([, key, value]) => [key!, value!]));

/** Core moves and scales evenly, and never turns. */
function moved({ x, y, scale }: Move, transform: string): Move {
  const [, dx = '0', dy = '0'] = /translate\(([-\d.]+)[ ,]([-\d.]+)\)/.exec(transform) ?? [];
  const [, times = '1'] = /scale\(([-\d.]+)\)/.exec(transform) ?? [];
  return { x: x + scale * Number(dx), y: y + scale * Number(dy), scale: scale * Number(times) };
}

/** Half the height of capitals, by which a line of letters lies below its middle. A property of Source Serif: capitals are .67 of the size. */
const HALF_CAPITAL = 0.335;

/** A text as it is set in Source Serif. */
export interface SetText {
  readonly letters: string;
  readonly sizePx: number;
  readonly weight: 'regular' | 'semibold';
  /** Which share of its width lies left of `xPx`. */
  readonly leftShare: number;
  readonly xPx: number;
  readonly baselinePx: number;
}

export function setText({ of, text }: Pick<Drawn, 'of' | 'text'>): SetText {
  const sizePx = numberIn(of, 'font-size', 12);
  return {
    // The face has no script l; in a serif face an l cannot be taken for a line.
    letters: text.replaceAll('ℓ', 'l'),
    sizePx,
    weight: numberIn(of, 'font-weight', 400) >= 600 ? 'semibold' : 'regular',
    leftShare: { start: 0, middle: 0.5, end: 1 }[of['text-anchor'] ?? 'start'] ?? 0,
    xPx: numberIn(of, 'x', 0),
    baselinePx: numberIn(of, 'y', 0) + (of['dominant-baseline'] === 'central' ? HALF_CAPITAL * sizePx : 0),
  };
}
