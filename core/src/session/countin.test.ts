/** A spoken count-in against what musicians count, frame by frame. */
import { expect, test } from 'vitest';
import { clicksOf } from './click.ts';
import { countsOf } from './countin.ts';
import type { BlockLayout } from './layout.ts';

const layout = (change: Partial<BlockLayout>): BlockLayout => ({
  ...{ sampleRateHz: 48_000, tempoBpm: 120, beatsPerBar: 4, startFrame: 777, countInBars: 1, firstBar: 0, barCount: 4, roundBars: 4 },
  ...change,
});

test.each([
  { says: 'common practice, no source', bars: 1, beats: 4, counted: [0, 1, 2, 3], numbers: [1, 2, 3, 4] },
  { says: 'common practice, no source: one . two . one two three four', bars: 2, beats: 4, counted: [0, 2, 4, 5, 6, 7], numbers: [1, 2, 1, 2, 3, 4] },
  { says: 'common practice, no source', bars: 2, beats: 3, counted: [0, 1, 2, 3, 4, 5], numbers: [1, 2, 3, 1, 2, 3] },
  { says: 'common practice, no source', bars: 1, beats: 7, counted: [0, 1, 2, 3, 4, 5, 6], numbers: [1, 2, 3, 4, 5, 6, 7] },
  { says: 'arithmetic: nothing to count', bars: 0, beats: 4, counted: [], numbers: [] },
])('$bars bars of $beats count on the frames of their clicks, and each until the next (says: $says)', ({ bars, beats, counted, numbers }) => {
  const block = layout({ countInBars: bars, beatsPerBar: beats });
  const counts = countsOf(block);
  // Half a second a beat (arithmetic).
  expect(counts.map(({ frame }) => frame)).toEqual(counted.map((beat) => 777 + 24_000 * beat));
  expect(counts.map(({ count }) => count)).toEqual(numbers);
  expect(counts.map(({ untilFrame }) => untilFrame)).toEqual(
    [...counts.slice(1).map(({ frame }) => frame), 777 + 24_000 * bars * beats].slice(0, counts.length),
  );
  const clicked = clicksOf(block).map(({ frame }) => frame);
  expect(counts.every(({ frame }) => clicked.includes(frame))).toBe(true);
});

test('the count-in after a pause has the tempo of the bar that follows it (arithmetic: 60/96 s of 48,000 frames)', () => {
  const counts = countsOf(layout({ firstBar: 2, changes: [{ bar: 1, tempoBpm: 96 }] }));
  expect(counts.map(({ frame }) => frame)).toEqual([0, 1, 2, 3].map((beat) => 777 + 30_000 * beat));
});
