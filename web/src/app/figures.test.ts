import type { CauseParams } from '@evenhand/core/finding';
import type { Pair } from '@evenhand/core/measurement';
import { expect, test } from 'vitest';
import { effectFigures, gapLeaning, signed } from './figures.ts';

test.each([
  { gapShare: 0.88, gapLow: 0.86, gapHigh: 0.9, leaning: 'less' },
  { gapShare: 1.1, gapLow: 1.02, gapHigh: 1.2, leaning: 'more' },
  { gapShare: 0.97, gapLow: 0.9, gapHigh: 1.04, leaning: 'even' },
  { gapShare: 0.92, gapLow: 0.85, gapHigh: 1.01, leaning: 'perhapsLess' },
  { gapShare: null, gapLow: null, gapHigh: null, leaning: 'unsure' },
])('a space of $gapShare is $leaning (DESIGN.md: 1 is even, below 1 too close)', ({ gapShare, gapLow, gapHigh, leaning }) => {
  expect(gapLeaning({ gapShare, gapLow, gapHigh } as Pair, 0.06)).toBe(leaning);
});

const told = { effectMs: -13.75, effectLowMs: -19.1, effectHighMs: -8.4, effectDb: 2.98, effectLowDb: 1.58, effectHighDb: 4.39 };

test.each([
  { time: 'early', volume: 'louder', text: '−14 ms (−19 … −8), +3.0 dB (+1.6 … +4.4)' },
  { time: 'even', volume: 'louder', text: '+3.0 dB (+1.6 … +4.4)' },
  { time: 'even', volume: 'even', text: '' },
] as const)('a sentence that tells $time and $volume rests on “$text” (DESIGN.md: each figure has its uncertainty)', ({ text, ...of }) => {
  expect(effectFigures({ ...told, ...of } as CauseParams).replaceAll('\u00a0', ' ')).toBe(text);
});

test.each([
  [-18.4, 0, '−18'],
  [2.54, 1, '+2.5'],
  [-0.3, 0, '0'],
  [null, 0, '–'],
] as const)('%s with %i digits reads %s', (value, digits, text) => {
  expect(signed(value, digits)).toBe(text);
});
