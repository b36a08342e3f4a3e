/** Strokes sound at their frame and at their volume, and nothing sounds too loud. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { DRUMS } from '../kit/index.ts';
import { seededRandom } from '../random.ts';
import { rational } from '../rational.ts';
import { dbOfAmplitude } from '../units.ts';
import { renderClick, renderExercise, renderLoop, renderStrokes, truePeak, voiceOf } from './index.ts';
import { voices } from './voices.ts';

const surfaces = Object.keys(voices);
const rates = [44100, 48000];

/** First sample that reaches 10 % of the peak within 30 ms (EAR.md), searched from the start. */
function onsetFrame(samples: Float32Array, sampleRateHz: number): number {
  const first = samples.findIndex((sample) => sample !== 0);
  const reach = samples.subarray(first, first + Math.round(0.03 * sampleRateHz));
  const peak = reach.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  return first + reach.findIndex((sample) => Math.abs(sample) >= 0.1 * peak);
}

const rmsDb = (samples: Float32Array) => dbOfAmplitude(Math.sqrt(samples.reduce((sum, sample) => sum + sample * sample, 0) / samples.length));
/** The largest value at sixteen steps per sample, by a longer sinc than the code's own. */
function finePeak(samples: Float32Array): number {
  let most = 0;
  for (let at = 40; at < 4000; at += 1 / 16) {
    let sum = 0;
    for (let k = Math.ceil(at - 40); k <= at + 40; k++) {
      const x = Math.PI * (at - k);
      sum += samples[k]! * (x === 0 ? 1 : Math.sin(x) / x) * Math.cos(x / 82) ** 2;
    }
    most = Math.max(most, Math.abs(sum));
  }
  return most;
}
const render = (timeSec: number, surface: string, options: { levelDb: number; sampleRateHz: number; seed?: number }) =>
  renderStrokes([{ timeSec, surface, levelDb: options.levelDb }], {
    sampleRateHz: options.sampleRateHz,
    durationSec: timeSec + 0.5,
    random: seededRandom(options.seed ?? 1),
  });

describe.each(surfaces.flatMap((surface) => rates.map((sampleRateHz) => ({ surface, sampleRateHz }))))(
  '$surface at $sampleRateHz Hz',
  ({ surface, sampleRateHz }) => {
    test('its onset is its frame: EAR.md, onset', () => {
      const samples = render(0.1, surface, { levelDb: -20, sampleRateHz });
      expect(onsetFrame(samples, sampleRateHz)).toBe(Math.round(0.1 * sampleRateHz));
    });

    test('has the volume asked for over its first 20 ms, and volumes differ by what was asked: EAR.md, level', () => {
      const window = Math.round(0.02 * sampleRateHz);
      const level = (levelDb: number, seed: number) => rmsDb(render(0, surface, { levelDb, sampleRateHz, seed }).subarray(0, window));
      expect(level(-26, 1)).toBeCloseTo(-26, 1);
      expect(level(-20, 2) - level(-38, 3)).toBeCloseTo(18, 1);
    });
  },
);

test('a loud pile of strokes stays under −1 dB true peak and keeps its differences: EBU R 128', () => {
  const strokes = surfaces.map((surface) => ({ timeSec: 0.01, surface, levelDb: -3 }));
  const samples = renderStrokes(strokes, { sampleRateHz: 44100, durationSec: 0.5, random: seededRandom(3) });
  // .1 dB: what four steps per sample may miss of a peak that sixteen find (BS.1770 annex 2 allows more).
  expect(dbOfAmplitude(finePeak(samples))).toBeLessThanOrEqual(-0.9);
});

test('the true peak of a sine between its samples: arithmetic', () => {
  // A quarter of the sample rate at 45°: every sample is ±√½, the wave reaches 1.
  const samples = Float32Array.from({ length: 400 }, (_, i) => Math.sin((Math.PI / 2) * i + Math.PI / 4));
  expect(samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0)).toBeCloseTo(Math.SQRT1_2, 5);
  expect(Math.abs(dbOfAmplitude(truePeak(samples)))).toBeLessThan(0.2);
});

test('the same seed gives the same sound; shifting the strokes by frames shifts the sound: law', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 2000 }), fc.constantFrom(...surfaces), (shift, surface) => {
      const options = { levelDb: -20, sampleRateHz: 44100 };
      const still = render(0, surface, options);
      const moved = render(shift / 44100, surface, options);
      expect(moved.subarray(shift, shift + 1000)).toEqual(still.subarray(0, 1000));
    }),
    { numRuns: 20, seed: 7 },
  );
});

test('strokes before the start and after the end are cut off', () => {
  const random = seededRandom(1);
  const strokes = [-0.01, 0.5, 2].map((timeSec) => ({ timeSec, surface: 'snare', levelDb: -20 }));
  expect(renderStrokes(strokes, { sampleRateHz: 44100, durationSec: 0.505, random })).toHaveLength(Math.round(0.505 * 44100));
});

test('every drum of the kit has a voice of its own', () => {
  expect(DRUMS.map(({ name }) => voiceOf(name))).toEqual(DRUMS.map(({ name }) => name));
});

test.each([
  { surface: 'Floor Tom', voice: 'floor-tom' },
  { surface: 'open hi-hat', voice: 'open-hi-hat' },
  { surface: 'grandmother’s biscuit tin', voice: 'pad' },
])('$surface sounds as $voice (common practice, no source)', ({ surface, voice }) => {
  expect(voiceOf(surface)).toBe(voice);
});

test('an exercise sounds its strokes and its click at their frames: arithmetic 60/120/4', () => {
  const stroke = { index: 0, limb: 'R', surface: 'pad', beat: rational(1, 4), accent: false, ghost: false, buzz: false, graceCount: 0 } as const;
  const cycle = { lengthBeats: rational(1), strokes: [stroke] };
  const alone = renderExercise(cycle, { tempoBpm: 120, cycles: 2, sampleRateHz: 48000, random: seededRandom(1) });
  expect(onsetFrame(alone, 48000)).toBe(6000);
  const clicked = renderExercise(cycle, { tempoBpm: 120, cycles: 2, sampleRateHz: 48000, random: seededRandom(1), clickBeats: 4 });
  expect(clicked.subarray(0, 1680)).toEqual(renderClick('bar', 48000));
  const how = { tempoBpm: 120, cycles: 2, sampleRateHz: 48000, random: seededRandom(1), clickBeats: 4, clickSound: 'knock' } as const;
  expect(renderExercise(cycle, how).subarray(0, 1680)).toEqual(renderClick('bar', 48000, 'knock'));
  expect(clicked).toHaveLength(48000 * 2);
});

test('law: a loop has the length of its cycles, and holds the small note before its first beat at its end', () => {
  const stroke = { index: 0, limb: 'R', surface: 'pad', beat: rational(0), accent: false, ghost: false, buzz: false, graceCount: 1 } as const;
  const loop = renderLoop(
    { lengthBeats: rational(2), strokes: [stroke] },
    { tempoBpm: 120, cycles: 2, sampleRateHz: 48000, random: seededRandom(1) },
  );
  expect(loop).toHaveLength(48000 * 2);
  // FACTS.md 2: 47 ms before its stroke, which is the first frame.
  expect(onsetFrame(loop.subarray(80000), 48000) + 80000).toBe(96000 - Math.round(0.047 * 48000));
  expect(Math.abs(loop[0]!)).toBeGreaterThan(0);
});

test('law: an exercise sounds each drum in several ways, at the volumes written', () => {
  const strokes = Array.from({ length: 8 }, (_, index) => {
    return {
      index,
      limb: 'R',
      surface: 'snare',
      beat: rational(index),
      accent: index === 2,
      ghost: index === 4,
      buzz: false,
      graceCount: 0,
    } as const;
  });
  const sound = renderExercise({ lengthBeats: rational(8), strokes }, { tempoBpm: 60, cycles: 1, sampleRateHz: 44100, random: seededRandom(1) });
  const levels = strokes.map((_, i) => rmsDb(sound.subarray(44100 * i, 44100 * i + 882)));
  expect(levels[2]! - levels[1]!).toBeCloseTo(6, 1);
  expect(levels[4]! - levels[3]!).toBeCloseTo(-9, 1);
  expect(sound.subarray(0, 882)).not.toEqual(sound.subarray(44100, 44100 + 882));
});
