import type { Pair } from '@evenhand/core/measurement';
import { expect, test } from 'vitest';
import { gapLeaning, signed } from './figures.ts';

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
