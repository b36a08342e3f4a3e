import type { MeasuredStroke } from '@evenhand/core/measurement';
import type { Stroke } from '@evenhand/core/stroke';
import { expect, test } from 'vitest';
import { drumHints } from './drumhint.ts';

/** Two places, ten cycles, half a second apart. */
const expected = Array.from({ length: 20 }, (_, k) => ({ index: k % 2, playedSec: k / 2 })) as unknown as MeasuredStroke[];
const heard = (drumOf: (k: number) => Stroke['drum'], count = 20): Stroke[] =>
  Array.from({ length: count }, (_, k) => ({ timeSec: k / 2, levelDb: -20, confidence: 1, drum: drumOf(k) }));

test.each([
  ['every second one a kick', heard((k) => (k % 2 === 1 ? 'kick' : 'snare')), ['notKick', 'kick']],
  [
    'arithmetic: two of ten kicks are one in five, eight are four in five',
    heard((k) => (k < 4 || k % 2 === 1 ? 'kick' : 'pad')),
    ['notKick', 'kick'],
  ],
  ['three of ten are neither', heard((k) => (k < 6 && k % 2 === 0 ? 'kick' : 'tom')), ['mixed', 'notKick']],
] as const)('says: issue 4, a hint of the drum, kick or not: %s', (_, strokes, hints) => {
  const told = drumHints(expected, strokes);
  expect([told.get(0), told.get(1)]).toEqual(hints);
});

test('too few strokes, strokes elsewhere and strokes that were not played give no hint', () => {
  expect(
    drumHints(
      expected,
      heard(() => 'kick', 6),
    ).size,
  ).toBe(0);
  expect(
    drumHints(
      expected,
      heard(() => 'kick').map((one) => ({ ...one, timeSec: one.timeSec + 0.01 })),
    ).size,
  ).toBe(0);
  expect(
    drumHints(
      expected.map((one) => ({ ...one, playedSec: null })),
      heard(() => 'kick'),
    ).size,
  ).toBe(0);
});
