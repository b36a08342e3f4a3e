import type { Measurement } from '@evenhand/core/measurement';
import { readWav } from '@evenhand/core/take';
import { expect, test } from 'vitest';
import type { HeardPhrase } from './heardphrase.ts';
import { emptyPhrase } from './phrase.ts';
import { cyclesIn, evenAsWav, partAsWav, partOf } from './playback.ts';

/** Six strokes a cycle, .1 s apart, from one second on. */
const strokes = Array.from({ length: 18 }, (_, i) => ({ cycle: Math.floor(i / 6), index: i % 6, expectedSec: 1 + i / 10 }));
const measurement = { strokes } as unknown as Measurement;

test.each([
  { what: 'a cycle', listened: { of: 'cycle', cycle: 1 }, cell: null, from: 1.55, to: 2.15 },
  { what: 'the last cycle, to half a second after its last stroke', listened: { of: 'cycle', cycle: 2 }, cell: null, from: 2.15, to: 3.15 },
  { what: 'a cell', listened: { of: 'cell', cycle: 0 }, cell: { first: 2, last: 3 }, from: 1.15, to: 1.35 },
  { what: 'a cell that wraps', listened: { of: 'cell', cycle: 0 }, cell: { first: 5, last: 0 }, from: 1.45, to: 1.65 },
] as const)('$what lies from $from to $to s (arithmetic: 50 ms before its strokes)', ({ listened, cell, from, to }) => {
  const part = partOf(measurement, listened, cell)!;
  expect(part.fromSec).toBeCloseTo(from, 9);
  expect(part.toSec).toBeCloseTo(to, 9);
});

test('cycles are those that were heard; another has no part', () => {
  expect(cyclesIn(measurement)).toEqual([0, 1, 2]);
  expect(partOf(measurement, { of: 'cycle', cycle: 7 }, null)).toBeNull();
});

test('the part and the same part played evenly are of one length, and the strokes lie where they are written (arithmetic)', () => {
  const part = { fromSec: 1.55, toSec: 2.15 };
  const take = readWav(partAsWav(new Float32Array(8000 * 4), 8000, part)).value!;
  const heard = { measurement, phrase: { ...emptyPhrase, sticking: 'RLRLKK' } } as HeardPhrase;
  const even = readWav(evenAsWav(heard, 8000, part)).value!;
  expect([take.samples.length, even.samples.length]).toEqual([4800, 4800]);
  // The first stroke is written 50 ms in: frame 400 is the first that is not silent.
  expect(even.samples.findIndex((sample) => sample !== 0)).toBe(400);
});
