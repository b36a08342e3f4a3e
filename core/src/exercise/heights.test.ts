import { expect, test } from 'vitest';
import { readSticking } from '../sticking/index.ts';
import { readContent } from './content.ts';
import { strokeTypes } from './heights.ts';

const typesOf = (text: string): string =>
  strokeTypes(readContent(readSticking(text).value!, { perBeat: 4 }).value!)
    .map((type) => type?.[0] ?? '-')
    .join(' ');

/** F full, D down, T tap, U up: an accent starts high, the stroke before an accent of the same hand ends high. */
test.each([
  { text: '>R>R', types: 'f f', says: 'accents only: full strokes' },
  { text: 'RL', types: 't t', says: 'no accent: taps' },
  { text: '>RR', types: 'd u', says: 'accent and tap in turn: down and up' },
  { text: '>RLRR>LRLL', types: 'd u t t d u t t', says: 'the paradiddle, as taught: down, up, tap, tap' },
  { text: '>RLRLKK', types: 'd t u t - -', says: 'feet have none; the hand is lifted before its accent' },
  { text: '>RR/', types: 'd t u', says: 'of a diddle the second stroke goes up' },
])('common practice, no source: $says ($text is $types)', ({ text, types }) => {
  expect(typesOf(text)).toBe(types);
});
