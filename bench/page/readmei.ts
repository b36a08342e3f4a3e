/** What verovio made of our MusicXML, read from its MEI: onsets from its own note values and tuplets, in exact fractions. */
import { fraction, type Head, type Reading, readingOf } from './expected.ts';
import { all, readXml, type XmlElement } from './xml.ts';

interface Rational {
  readonly num: bigint;
  readonly den: bigint;
}

/** What verovio read. */
export interface ReadMei {
  readonly reading: Reading;
  /** Length of each layer of each bar, in quarters. */
  readonly bars: readonly (readonly string[])[];
}

const greatest = (a: bigint, b: bigint): bigint => (b === 0n ? a : greatest(b, a % b));
const rational = (num: bigint, den: bigint): Rational => {
  const shared = greatest(num, den) || 1n;
  return { num: num / shared, den: den / shared };
};
const add = (a: Rational, b: Rational): Rational => rational(a.num * b.den + b.num * a.den, a.den * b.den);
const times = (a: Rational, b: Rational): Rational => rational(a.num * b.num, a.den * b.den);
const told = ({ num, den }: Rational): string => fraction(Number(num), Number(den));

/** Reads MEI as verovio writes it. `barQuarters` is the length of a bar, for rests of whole bars. */
export function readMei(mei: string, barQuarters: readonly [number, number]): ReadMei {
  const root = readXml(mei);
  const measures = found(root, 'measure');
  const whole = rational(BigInt(barQuarters[0]), BigInt(barQuarters[1]));
  const held = tiedEnds(root);
  const [heads, graces, letters]: [Head[], string[], string[]] = [[], [], []];
  let start = rational(0n, 1n);
  const bars = measures.map((measure) => {
    const lengths = found(measure, 'layer').map((layer) => {
      const reader: Reader = { at: start, whole, heads, graces, letters, small: [], held };
      walk(layer, rational(1n, 1n), reader);
      return told(add(reader.at, { num: -start.num, den: start.den }));
    });
    start = add(start, whole);
    return lengths;
  });
  return { reading: readingOf(heads, graces, letters), bars };
}

interface Reader {
  at: Rational;
  readonly whole: Rational;
  readonly heads: Head[];
  readonly graces: string[];
  readonly letters: string[];
  /** Steps of small notes whose stroke is still to come. */
  small: number[];
  /** Ids of notes that a tie ends on. */
  readonly held: ReadonlySet<string>;
}

/** Every element of a name, however deep. */
function found(element: XmlElement, name: string): readonly XmlElement[] {
  return element.children.flatMap((child) => (child.name === name ? [child, ...found(child, name)] : found(child, name)));
}

const tiedEnds = (root: XmlElement): ReadonlySet<string> =>
  new Set([
    ...found(root, 'tie').map(({ attributes }) => attributes.endid?.slice(1) ?? ''),
    ...found(root, 'note').flatMap(({ attributes }) => (/[tm]/.test(attributes.tie ?? '') ? [attributes['xml:id']!] : [])),
  ]);

function walk(element: XmlElement, ratio: Rational, reader: Reader): void {
  for (const child of element.children) {
    if (child.name === 'tuplet') {
      const { num, numbase } = child.attributes;
      walk(child, times(ratio, rational(BigInt(numbase!), BigInt(num!))), reader);
    } else if (child.name === 'rest' || child.name === 'space') reader.at = add(reader.at, lengthOf(child, ratio));
    else if (child.name === 'mRest') reader.at = add(reader.at, reader.whole);
    else if (child.name === 'note' || child.name === 'chord') readNote(child, ratio, { reader, roll: rollOf(element) });
    else walk(child, ratio, reader);
  }
}

const rollOf = ({ name, attributes }: XmlElement): Head['roll'] => (name !== 'bTrem' ? 'none' : attributes.form === 'unmeas' ? 'buzz' : 'diddle');

function lengthOf({ attributes }: XmlElement, ratio: Rational): Rational {
  const plain = rational(4n, BigInt(attributes.dur!));
  const dots = Number(attributes.dots ?? 0);
  const dotted = rational(2n ** BigInt(dots + 1) - 1n, 2n ** BigInt(dots));
  return times(times(plain, dotted), ratio);
}

function readNote(note: XmlElement, ratio: Rational, { reader, roll }: { readonly reader: Reader; readonly roll: Head['roll'] }): void {
  const heads = note.name === 'chord' ? all(note, 'note') : [note];
  if (note.attributes.grace || heads.some(({ attributes }) => attributes.grace)) {
    reader.small.push(...heads.map(stepOf));
    return;
  }
  const accent = (element: XmlElement) => all(element, 'artic').some(({ attributes }) => attributes.artic === 'acc');
  const onset = told(reader.at);
  reader.graces.push(...reader.small.map((step) => `${onset} ${step}`));
  reader.letters.push(...lettersOf(note).map((letter) => `${onset} ${letter}`));
  for (const head of heads) {
    if (reader.held.has(head.attributes['xml:id']!)) continue;
    reader.heads.push({
      onset,
      step: stepOf(head),
      shape: SHAPES[head.attributes['head.shape'] ?? ''] ?? head.attributes['head.shape']!,
      ghost: head.attributes['head.mod'] === 'paren',
      accent: accent(head) || accent(note),
      roll,
    });
  }
  reader.small = [];
  reader.at = add(reader.at, lengthOf(note, ratio));
}

const lettersOf = (note: XmlElement): readonly string[] => found(note, 'syl').map(({ text }) => text.trim());

/** Lines and spaces counted by MEI from the bottom line, the middle one being 4. */
const stepOf = ({ attributes }: XmlElement): number => Number(attributes.loc) - 4;

/** verovio's names for the heads we use; its MEI has none for a circled x and says slash. */
const SHAPES: Readonly<Record<string, string>> = {
  slash: 'circle-x',
  '': 'normal',
  x: 'x',
  circlex: 'circle-x',
  '+': 'plus',
  diamond: 'diamond',
  rtriangle: 'triangle',
};
