/** Counting aloud: what is said on each part of a beat. Common practice, no source; countries and teachers differ. */

/** How the parts of a beat are said: `en` 1 e & a, `de` 1 e + e. */
export type CountCountry = 'en' | 'de';

/** Where nothing is said. */
const NOTHING = '·';

const SIXTEENTHS: Readonly<Record<CountCountry, readonly string[]>> = { en: ['e', '&', 'a'], de: ['e', '+', 'e'] };

/**
 * What is said on a slot.
 * @param within slot of the beat, 0 on the beat itself.
 * @param beat beat of the bar, from 0.
 * @returns the number of the beat on it; `e`, `&`, `a` where a slot falls on a quarter of a beat; a dot elsewhere.
 * @example countedAs({ beat: 1, within: 2, perBeat: 4 }) // '&'
 */
export function countedAs(slot: { readonly beat: number; readonly within: number; readonly perBeat: number }, country: CountCountry = 'en'): string {
  const { beat, within, perBeat } = slot;
  if (within === 0) return String(beat + 1);
  const quarter = (4 * within) / perBeat;
  return Number.isInteger(quarter) ? SIXTEENTHS[country][quarter - 1]! : NOTHING;
}
