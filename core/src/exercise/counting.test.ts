import { expect, test } from 'vitest';
import { type CountCountry, countedAs } from './counting.ts';

test.each([
  { perBeat: 1, said: '1 2', country: 'en' },
  { perBeat: 2, said: '1 & 2 &', country: 'en' },
  { perBeat: 3, said: '1 trip let 2 trip let', country: 'en' },
  { perBeat: 3, said: '1 o le 2 o le', country: 'de' },
  { perBeat: 5, said: '1 · · · · 2 · · · ·', country: 'en' },
  { perBeat: 4, said: '1 e & a 2 e & a', country: 'en' },
  { perBeat: 4, said: '1 e + e 2 e + e', country: 'de' },
  { perBeat: 6, said: '1 trip let & trip let 2 trip let & trip let', country: 'en' },
  { perBeat: 8, said: '1 · e · & · a · 2 · e · & · a ·', country: 'en' },
] as const satisfies readonly { perBeat: number; said: string; country: CountCountry }[])(
  'common practice, no source: two beats of $perBeat are counted "$said" ($country)',
  ({ perBeat, said, country }) => {
    const slots = Array.from({ length: 2 * perBeat }, (_, slot) => ({ beat: Math.floor(slot / perBeat), within: slot % perBeat, perBeat }));
    expect(slots.map((slot) => countedAs(slot, country)).join(' ')).toBe(said);
  },
);
