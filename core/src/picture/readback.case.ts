/** Reads pictures back: elements with their attributes, and the scale that an axis' ticks say. */

/** An element of SVG text. */
export interface ReadElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  /** Text directly inside, entities resolved. */
  readonly text: string;
  readonly children: readonly ReadElement[];
}

/** Parses SVG text strictly: throws on tags that do not match or on what is not an element or text. */
export function readSvg(svg: string): ReadElement {
  const root: Open = { name: '', attributes: {}, text: '', children: [] };
  const open: Open[] = [root];
  for (const [piece, close, name, attributes, selfClosing] of svg.matchAll(/<(\/?)([a-z]+)((?: [a-zA-Z0-9:-]+="[^"<]*")*)(\/?)>|[^<]+|</g)) {
    if (piece === '<') throw new Error(`not an element: ${svg.slice(0, 80)}`);
    if (name === undefined) open.at(-1)!.text += unescaped(piece);
    else if (close) shut(open, name);
    else {
      const element: Open = { name, attributes: readAttributes(attributes!), text: '', children: [] };
      open.at(-1)!.children.push(element);
      if (!selfClosing) open.push(element);
    }
  }
  if (open.length !== 1) throw new Error(`left open: ${open.at(-1)!.name}`);
  return root.children[0]!;
}

interface Open extends ReadElement {
  text: string;
  readonly children: Open[];
}

function shut(open: Open[], name: string): void {
  const last = open.pop()!;
  if (last.name !== name) throw new Error(`${last.name} is closed by ${name}`);
}

const readAttributes = (text: string): Readonly<Record<string, string>> =>
  Object.fromEntries([...text.matchAll(/ ([a-zA-Z0-9:-]+)="([^"]*)"/g)].map(([, key, value]) => [key!, unescaped(value!)]));

const unescaped = (text: string): string => text.replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&quot;', '"').replaceAll('&amp;', '&');

/** All elements below, in order. */
export const all = (element: ReadElement): readonly ReadElement[] => element.children.flatMap((child) => [child, ...all(child)]);

/** Elements of a class. */
export const ofClass = (element: ReadElement, name: string): readonly ReadElement[] =>
  all(element).filter(({ attributes }) => attributes.class?.split(' ').includes(name));

/** A number of an element. */
export const numberOf = ({ attributes }: ReadElement, name: string): number => Number(attributes[name]);

/** What a place in px means by the first and the last tick label of an axis, read in between on a straight line. */
export function readScale(axis: ReadElement, coordinate: 'x' | 'y', readLabel: (label: string) => number = labelValue): (px: number) => number {
  const ticks = all(axis).filter(({ name, text }) => name === 'text' && !Number.isNaN(readLabel(text)));
  const [first, last] = [ticks[0]!, ticks.at(-1)!];
  const [fromPx, toPx] = [numberOf(first, coordinate), numberOf(last, coordinate)];
  const [from, to] = [readLabel(first.text), readLabel(last.text)];
  return (px) => from + ((px - fromPx) * (to - from)) / (toPx - fromPx);
}

const labelValue = (label: string): number => (label === '' ? Number.NaN : Number(label.replace('−', '-')));

/** Points of a path of straight lines. */
export const pointsOf = ({ attributes }: ReadElement): readonly [number, number][] =>
  [...attributes.d!.matchAll(/(-?[\d.]+),(-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)]);
