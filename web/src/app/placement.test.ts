import { expect, test } from 'vitest';
import { type PlacingPeaks, placementOf } from './placement.ts';

const peaks = (quiet: number, loudest: number, softest: number, kick: number): PlacingPeaks => ({
  quiet: [quiet, quiet, 10 * quiet],
  loudest: [quiet, loudest, quiet],
  softest: [quiet, softest],
  kick: [quiet, kick],
});

test.each([
  { place: 'a good one', made: peaks(0.002, 0.7, 0.05, 0.2), words: ['fine'] },
  { place: 'beside a loud kit', made: peaks(0.002, 1, 0.05, 0.2), words: ['clipped'] },
  // 12 dB are a factor of 4 (arithmetic: 10^(12/20) = 3.98).
  { place: 'a noisy room', made: peaks(0.02, 0.7, 0.06, 0.07), words: ['soft-lost', 'kick-lost'] },
  { place: 'a microphone that is muted', made: peaks(0, 0, 0, 0), words: ['silent'] },
])('$place: $words (says: arithmetic)', ({ made, words }) => {
  expect(placementOf(made, true)).toEqual(words);
});

test('a kick that is not there is not missed', () => {
  expect(placementOf(peaks(0.002, 0.7, 0.05, 0.002), false)).toEqual(['fine']);
});
