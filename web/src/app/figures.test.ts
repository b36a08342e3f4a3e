import type { Pair, Place } from '@evenhand/core/measurement';
import { expect, test } from 'vitest';
import { gapLeaning, signed, timeLeaning, volumeLeaning, volumeStepDb } from './figures.ts';

const place = (change: Partial<Place>): Place => ({ index: 0, biasMs: 0, biasLowMs: -1, biasHighMs: 1, levelDb: -20, ...change }) as Place;

test.each([
  { says: 'interval below nought and past what is heard', biasMs: -18, biasLowMs: -20, biasHighMs: -16, leaning: 'less' },
  { says: 'late by the same', biasMs: 18, biasLowMs: 16, biasHighMs: 20, leaning: 'more' },
  { says: 'surely early, but by less than 6 ms: not heard (Friberg & Sundberg 1995)', biasMs: -4, biasLowMs: -5, biasHighMs: -3, leaning: 'even' },
  { says: 'far, but the interval reaches nought: not sure', biasMs: -9, biasLowMs: -20, biasHighMs: 2, leaning: 'even' },
  { says: 'no figure', biasMs: null, biasLowMs: null, biasHighMs: null, leaning: 'unsure' },
])('a place at $biasMs ms is $leaning: $says', ({ biasMs, biasLowMs, biasHighMs, leaning }) => {
  expect(timeLeaning(place({ biasMs, biasLowMs, biasHighMs }), 6)).toBe(leaning);
});

test('volume is compared within one drum, with the middle of its other places (JOB.md: one drum only; arithmetic)', () => {
  const places = [-18, -20, -30, -14].map((levelDb, index) => place({ index, levelDb }));
  const surfaces = ['snare', 'snare', 'snare', 'kick'];
  expect(volumeStepDb(places, surfaces, 2)).toBe(-11);
  expect(volumeStepDb(places, surfaces, 3)).toBeNull();
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
