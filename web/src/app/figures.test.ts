import type { Pair } from '@evenhand/core/measurement';
import { expect, test } from 'vitest';
import { gapLeaning, signed, timeLeaning, volumeLeaning } from './figures.ts';

test.each([
  { says: 'interval below nought and past what is heard', biasMs: -18, lowMs: -20, highMs: -16, leaning: 'less' },
  { says: 'late by the same', biasMs: 18, lowMs: 16, highMs: 20, leaning: 'more' },
  { says: 'surely early, but by less than 6 ms: not heard (Friberg & Sundberg 1995)', biasMs: -4, lowMs: -5, highMs: -3, leaning: 'even' },
  { says: 'far, but the interval reaches nought: not sure', biasMs: -9, lowMs: -20, highMs: 2, leaning: 'even' },
  { says: 'no figure', biasMs: null, lowMs: null, highMs: null, leaning: 'unsure' },
])('a place at $biasMs ms is $leaning: $says', ({ biasMs, lowMs, highMs, leaning }) => {
  expect(timeLeaning({ biasMs, lowMs, highMs }, 6)).toBe(leaning);
});

test.each([
  [-3, 'less'],
  [-2.9, 'even'],
  [3, 'more'],
  [null, 'unsure'],
] as const)('a step of %s dB is %s (JOB.md: within 3 dB is clean)', (stepDb, leaning) => {
  expect(volumeLeaning(stepDb)).toBe(leaning);
});

test.each([
  { gapShare: 0.88, gapLow: 0.86, gapHigh: 0.9, leaning: 'less' },
  { gapShare: 1.1, gapLow: 1.02, gapHigh: 1.2, leaning: 'more' },
  { gapShare: 0.97, gapLow: 0.9, gapHigh: 1.04, leaning: 'even' },
  { gapShare: null, gapLow: null, gapHigh: null, leaning: 'unsure' },
])('a space of $gapShare is $leaning (DESIGN.md: 1 is even, below 1 too close)', ({ gapShare, gapLow, gapHigh, leaning }) => {
  expect(gapLeaning({ gapShare, gapLow, gapHigh } as Pair)).toBe(leaning);
});

test.each([
  [-18.4, 0, '−18'],
  [2.54, 1, '+2.5'],
  [-0.3, 0, '0'],
  [null, 0, '–'],
] as const)('%s with %i digits reads %s', (value, digits, text) => {
  expect(signed(value, digits)).toBe(text);
});
