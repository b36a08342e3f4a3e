/** Counting aloud: what is said on each part of a beat. Common practice, no source; countries and teachers differ. */

/** How the parts of a beat are said: `en` 1 e & a and 1 trip let, `de` 1 e + e and 1 o le. */
export type CountCountry = 'en' | 'de';

/** Where nothing is said. */
export const UNSAID = '·';

const SIXTEENTHS: Readonly<Record<CountCountry, readonly string[]>> = { en: ['e', '&', 'a'], de: ['e', '+', 'e'] };
const TRIPLETS: Readonly<Record<CountCountry, readonly string[]>> = { en: ['trip', 'let'], de: ['o', 'le'] };

/**
 * What is said on a slot.
 * @param within slot of the beat, 0 on the beat itself.
 * @param beat beat of the bar, from 0.
 * @returns the number of the beat on it; `trip`, `let` in threes, and around the `&` in sixes; `e`, `&`, `a` where a slot falls on a quarter of a beat; a dot elsewhere.
 * @example countedAs({ beat: 1, within: 2, perBeat: 4 }) // '&'
 */
export function countedAs(slot: { readonly beat: number; readonly within: number; readonly perBeat: number }, country: CountCountry = 'en'): string {
  const { beat, within, perBeat } = slot;
  if (within === 0) return String(beat + 1);
  if ((perBeat === 3 || perBeat === 6) && within % 3 !== 0) return TRIPLETS[country][(within % 3) - 1]!;
  const quarter = (4 * within) / perBeat;
  return Number.isInteger(quarter) ? SIXTEENTHS[country][quarter - 1]! : UNSAID;
}
