/** Holds the inspection of a take to flaws that were put in on purpose. */
import { describe, expect, it } from 'vitest';
import { fileClock, inspect } from './index.ts';

const rate = 44100;
const sine = (seconds: number, amplitude = 0.5) =>
  Float32Array.from({ length: seconds * rate }, (_, i) => amplitude * Math.sin((2 * Math.PI * 220 * (i + 0.5)) / rate));
const inspected = (samples: Float32Array, strokes?: number[]) => inspect({ samples, clock: fileClock(rate) }, strokes);

describe('inspect', () => {
  it('finds nothing in a clean take', () => expect(inspected(sine(2))).toEqual([]));
  it('finds silence', () => expect(inspected(new Float32Array(rate)).map(({ code }) => code)).toEqual(['take-silent']));
  it('finds what is too short', () => expect(inspected(sine(0.2)).map(({ code }) => code)).toEqual(['take-too-short']));

  it('counts clipped places and the strokes they spoil', () => {
    const samples = sine(2);
    for (const at of [20000, 60000]) samples.fill(1, at, at + 30);
    const [problem] = inspected(samples, [20000 / rate - 0.001, 1]);
    expect(problem).toEqual({ code: 'take-clipped', severity: 'doubtful', at: 20000 / rate, params: { clippedCount: 2, strokeShare: 0.5 } });
  });
  it('leaves a loud take alone whose peaks are round', () => expect(inspected(sine(2, 0.999))).toEqual([]));

  it.each([
    { zeros: 64, count: 1 },
    { zeros: 63, count: 0 },
  ])('takes a hole of $zeros zeros for $count gaps (says EAR trials: 64 or more)', ({ zeros, count }) => {
    const samples = sine(2);
    samples.fill(0, 30000, 30000 + zeros);
    const problems = inspected(samples);
    expect(problems.length).toBe(count);
    if (count > 0) expect(problems[0]).toMatchObject({ code: 'take-gaps', params: { gapCount: 1, longestSec: 64 / rate } });
  });
  it('does not take the silence before and after for gaps', () => {
    const samples = new Float32Array(3 * rate);
    samples.set(sine(1), rate);
    expect(inspected(samples)).toEqual([]);
  });
});
