import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { normal, seededRandom } from '../random.ts';
import { CLICK_SOUNDS, renderClick, renderStrokes, type SoundingStroke } from '../sound/index.ts';
import { createSticks, type StickCount, stepSticks } from './stickcount.ts';

const RATE = 48_000;
const random = seededRandom(8);

/** What the sticks said in a recording, given in blocks of the length the worklet sends. */
function said(samples: Float32Array, sampleRateHz = RATE, blockFrames = 512): readonly StickCount[] {
  const state = createSticks(sampleRateHz);
  const counts: StickCount[] = [];
  for (let at = 0; at < samples.length; at += blockFrames) {
    const counted = stepSticks(state, samples.subarray(at, at + blockFrames), at);
    if (counted) counts.push(counted);
  }
  return counts;
}

const noisy = (samples: Float32Array, noiseDb = -60): Float32Array => samples.map((sample) => sample + 10 ** (noiseDb / 20) * normal(random));

/** What a small loudspeaker leaves: 12 dB per octave less under `hz` (two filters of one pole each, arithmetic). */
function withoutLow(samples: Float32Array, hz: number): Float32Array {
  const share = Math.exp((-2 * Math.PI * hz) / RATE);
  let [slow, slower] = [0, 0];
  return samples.map((sample) => {
    slow = share * slow + (1 - share) * sample;
    const once = sample - slow;
    slower = share * slower + (1 - share) * once;
    return once - slower;
  });
}

/** Strokes on one drum, evenly spaced from one second on, and three seconds after. */
function row(
  surface: string,
  count: number,
  gapSec: number,
  change: { levelDb?: number; noiseDb?: number; offSec?: readonly number[] } = {},
): Float32Array {
  const { levelDb = -24, noiseDb = -60, offSec = [] } = change;
  const strokes: SoundingStroke[] = Array.from({ length: count }, (_, i) => ({ timeSec: 1 + i * gapSec + (offSec[i] ?? 0), surface, levelDb }));
  return noisy(renderStrokes(strokes, { sampleRateHz: RATE, durationSec: 4 + count * gapSec, random, strikesPerDrum: 1 }), noiseDb);
}

describe('stick clicks that are meant', () => {
  test.each([
    { count: 2, tempoBpm: 60 },
    { count: 3, tempoBpm: 96 },
    { count: 4, tempoBpm: 44 },
    { count: 4, tempoBpm: 120 },
    { count: 4, tempoBpm: 208 },
    { count: 6, tempoBpm: 132 },
    { count: 8, tempoBpm: 160 },
  ])(
    '$count at $tempoBpm are counted, their tempo good to 1 % (says: the sound made with that spacing; a millisecond in each)',
    ({ count, tempoBpm }) => {
      const [counted, ...more] = said(row('sticks', count, 60 / tempoBpm));
      expect(more).toEqual([]);
      expect(counted!.count).toBe(count);
      expect(Math.abs(counted!.tempoBpm / tempoBpm - 1)).toBeLessThan(0.01);
      expect(Math.abs(counted!.fromFrame - RATE)).toBeLessThanOrEqual(0.002 * RATE);
    },
  );

  test('soft ones in a quiet room are heard too, and ones as uneven as a hurried count-in (20 ms, assumption)', () => {
    expect(said(row('sticks', 4, 0.5, { levelDb: -42, noiseDb: -76 })).map(({ count }) => count)).toEqual([4]);
    expect(said(row('sticks', 4, 0.5, { offSec: [0, 0.02, -0.02, 0.01] })).map(({ count }) => count)).toEqual([4]);
  });

  test('any length of block gives the same counts (law)', () => {
    const samples = row('sticks', 4, 0.4);
    const whole = said(samples, RATE, samples.length);
    expect(whole).toHaveLength(1);
    fc.assert(
      fc.property(fc.integer({ min: 7, max: 9000 }), (blockFrames) => {
        expect(said(samples, RATE, blockFrames).map(({ count, fromFrame, toFrame }) => [count, fromFrame, toFrame])).toEqual(
          whole.map(({ count, fromFrame, toFrame }) => [count, fromFrame, toFrame]),
        );
      }),
      { numRuns: 8, seed: 3 },
    );
  });
});

describe('what says nothing', () => {
  test.each(['snare', 'rim', 'cross-stick', 'pad', 'kick', 'high-tom', 'hi-hat', 'open-hi-hat', 'hi-hat-foot', 'ride', 'ride-bell', 'crash'])(
    'four even strokes on the %s, quiet before and after',
    (surface) => {
      expect(said(row(surface, 4, 0.5))).toEqual([]);
    },
  );

  test.each(CLICK_SOUNDS.flatMap((sound) => (['bar', 'beat', 'subdivision'] as const).map((kind) => ({ sound, kind }))))(
    'our own click, $sound, the $kind of it, from a loudspeaker that gives all, or little of the low',
    ({ sound, kind }) => {
      const samples = new Float32Array(3.5 * RATE);
      for (let beat = 0; beat < 4; beat++) samples.set(renderClick(kind, RATE, sound), 0.7 * RATE + beat * 24_000);
      expect(said(noisy(samples))).toEqual([]);
      expect(said(noisy(withoutLow(samples, 500)))).toEqual([]);
    },
  );

  test('one alone, uneven ones, and clicks with something between them', () => {
    expect(said(row('sticks', 1, 0.5))).toEqual([]);
    expect(said(row('sticks', 4, 0.5, { offSec: [0, 0.15, 0, 0] }))).toEqual([]);
    const between = row('sticks', 4, 0.5);
    row('snare', 1, 0.5).forEach((sample, i) => {
      const at = i + Math.round(0.75 * RATE);
      if (at < between.length) between[at]! += sample;
    });
    expect(said(between)).toEqual([]);
  });

  test('a count-in that goes over into playing', () => {
    const strokes: SoundingStroke[] = [0, 1, 2, 3].map((beat) => ({ timeSec: 1 + beat / 2, surface: 'sticks', levelDb: -24 }));
    const playing: SoundingStroke[] = Array.from({ length: 16 }, (_, i) => ({
      timeSec: 3 + i / 8,
      surface: i % 4 ? 'hi-hat' : 'snare',
      levelDb: -24,
    }));
    expect(said(noisy(renderStrokes([...strokes, ...playing], { sampleRateHz: RATE, durationSec: 7, random })))).toEqual([]);
  });
});
