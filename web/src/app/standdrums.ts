/** Names of drums as they stand beside letters that are read from the drum stool: whole where they are large enough, else as charts mark them. */
import { drumNamed, isKnownDrum } from '@evenhand/core/kit';
import { fontPx } from './standsize.ts';

/** Common practice on charts, no source. Two letters each, so that all are of one size. */
const MARKS: Readonly<Record<string, string>> = {
  ...{ kick: 'BD', snare: 'SD', 'cross-stick': 'XS', rim: 'RM', pad: 'PD' },
  ...{ 'floor-tom': 'FT', 'mid-tom': 'MT', 'high-tom': 'HT', 'hi-hat': 'HH', 'open-hi-hat': 'HO', 'hi-hat-foot': 'HF' },
  ...{ ride: 'RD', 'ride-bell': 'RB', crash: 'CR' },
};

/**
 * A mark of two letters for each drum, none twice.
 * @param names as in exercises; an empty one (the feet's lane) has no mark.
 * @returns by name. A drum that no chart knows is marked by the first letters of its words or by its number.
 * @example marksOf(['hi-hat', 'tom1']) // hi-hat: HH, tom1: T1
 */
export function marksOf(names: readonly string[]): ReadonlyMap<string, string> {
  const marks = new Map<string, string>();
  const each = [...new Set(names)].filter((name) => name !== '');
  // Those that charts know keep their mark, whatever comes before them.
  for (const name of each.filter(isKnownDrum)) marks.set(name, MARKS[drumNamed(name).name]!);
  for (const name of each.filter((one) => !isKnownDrum(one))) {
    const taken = new Set(marks.values());
    marks.set(name, wishes(name.toUpperCase()).find((mark) => !taken.has(mark)) ?? name.slice(0, 2).toUpperCase());
  }
  return marks;
}

/** Marks for a name, the likeliest first: with its second word or its number, with its next letters, with a number of ours. */
function wishes(name: string): readonly string[] {
  const [first = '?'] = name;
  const seconds = [...name.replace(/^[^- \d]+[- ]?/, ''), ...name.slice(1), ...'123456789'];
  return seconds.filter((letter) => /[\p{L}\d]/u.test(letter)).map((letter) => `${first}${letter}`);
}

/** How wide a letter of a name is in ems: small letters, with the hyphen of "hi-hat"; capitals of a mark. By eye. */
const LETTER_EM = { name: 0.54, mark: 0.74 } as const;

/** Width of the longest of some names at a size of the font. */
export const namesWidthPx = (names: readonly string[], fontPx: number): number =>
  fontPx * Math.max(0, ...names.map((name) => name.length * (isMark(name) ? LETTER_EM.mark : LETTER_EM.name)));

const isMark = (name: string): boolean => name === name.toUpperCase();

/** A name under a letter is no taller than this, in heights of a capital. By eye. */
const TALLEST_UNDER = 0.62;

/** What of a row of letters decides how large names beside it can be; see `LetterPage`. */
interface NamedRow {
  readonly lanes: readonly string[];
  readonly leftPx: number;
  readonly firstPx: number;
  readonly capPx: number;
}

/** Size of the font of drums' names: what is glanced at, or as much of it as the longest has room for before the first letter. */
export function nameFontPx({ lanes, leftPx, firstPx, capPx }: NamedRow, glanceCapPx: number): number {
  const roomPx = leftPx + firstPx - 0.6 * capPx;
  return Math.min(fontPx(glanceCapPx), roomPx / Math.max(1e-9, namesWidthPx(lanes, 1)));
}

/** The same of names under letters. */
export const underFontPx = ({ capPx }: Pick<NamedRow, 'capPx'>, glanceCapPx: number): number => fontPx(Math.min(glanceCapPx, TALLEST_UNDER * capPx));
