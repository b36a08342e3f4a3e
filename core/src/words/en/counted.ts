/** Places in the beat and in the bar as drummers count them aloud, and small words about strokes. */

import { countedAs, UNSAID } from '../../exercise/index.ts';
import { limbNoun } from './limbs.ts';

/** Names of the places in a beat, as counted aloud. */
const COUNTED: Readonly<Record<number, readonly string[]>> = {
  2: ['the beat', 'the &'],
  3: ['the beat', 'the second triplet', 'the third triplet'],
  4: ['the beat', 'the e', 'the &', 'the a'],
};

/** Places in the beat: `the e and the a`. `slots` ascending, from the beat. */
export function placesListed(slots: readonly number[], perBeat: number): string {
  if (slots.length === perBeat) return 'every place of the beat in turn';
  return listed(slots.map((slot) => COUNTED[perBeat]?.[slot] ?? (slot === 0 ? 'the beat' : `place ${slot + 1} of the beat`)));
}

/** Strokes as counted from beat 1: slots 1 2 in sixteenths are `e &`, -1 0 `a 1`. As the row under the notes counts (`countedAs`); a slot on which nothing is said is named by its number. */
export function countedAloud(slots: readonly number[], perBeat: number): string {
  return slots
    .map((slot) => {
      const within = ((slot % perBeat) + perBeat) % perBeat;
      const beat = Math.floor(slot / perBeat);
      const said = countedAs({ beat, within, perBeat });
      return said === UNSAID ? `${beat + 1}.${within + 1}` : said;
    })
    .join(' ');
}

/** A piece: `“Blue Hour”, bridge,`. */
export const pieceName = (title: string, place: string): string => (place === '' ? `“${title}”` : `“${title}”, ${place},`);

/** `a`, `a and b`, `a, b and c`. */
export const listed = (names: readonly string[]): string =>
  names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;

const COUNTS = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight'];

/** A small number in words. */
export const counted = (count: number): string => COUNTS[count] ?? `${count}`;

/** The text begun with a capital. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** A limb: `the left`, `the kick`. */
export const limbName = (limb: string): string => `the ${limbNoun(limb) ?? limb}`;

const MANY: Readonly<Record<string, string>> = { R: 'rights', L: 'lefts', K: 'kicks', H: 'hi-hat foot strokes' };

/** Strokes of a limb: `three kicks`. */
export const strokesOf = (count: number, limb: string): string => `${counted(count)} ${MANY[limb] ?? 'strokes'}`;

export { readName as drumName } from '../../kit/index.ts';
