/** Holds the ear to made sound whose strokes lie at known samples, and to the laws every ear must keep. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { seededRandom } from '../random.ts';
import { fileClock, type Take } from '../take/index.ts';
import { createEar, finish, hear, step } from './index.ts';

interface Made {
  readonly sampleRateHz?: number;
  readonly times: readonly number[];
  readonly seconds?: number;
  readonly noise?: number;
  readonly gain?: number;
}

/** Bursts of noise that die away in some 15 ms, over a soft hiss; each begins with a sample well above 10 % of its peak. */
const clicks = ({ sampleRateHz = 44100, times, seconds = 3, noise = 1e-3, gain = 0.5 }: Made): Take => {
  const random = seededRandom(7);
  const bipolar = () => 2 * random() - 1;
  const samples = Float32Array.from({ length: Math.round(seconds * sampleRateHz) }, () => noise * bipolar());
  for (const time of times) {
    const at = Math.round(time * sampleRateHz);
    for (let i = 0; i < 0.08 * sampleRateHz && at + i < samples.length; i++) {
      const value = i === 0 ? 0.8 : bipolar();
      samples[at + i] = samples[at + i]! + gain * value * Math.exp(-i / (0.015 * sampleRateHz));
    }
  }
  return { samples, clock: fileClock(sampleRateHz) };
};

const even = (from: number, gap: number, count: number) => Array.from({ length: count }, (_, i) => from + i * gap);
const timesOf = (take: Take) => hear(take).strokes.map(({ timeSec }) => timeSec);

/** Every true time has exactly one stroke within `toleranceSec`, and there are no others. */
const expectTimes = (heard: readonly number[], expected: readonly number[], toleranceSec: number) => {
  expect(heard.map((time) => time.toFixed(3))).toHaveLength(expected.length);
  heard.forEach((time, i) => {
    expect(Math.abs(time - expected[i]!)).toBeLessThan(toleranceSec);
  });
};

describe('made strokes at known samples', () => {
  it.each([8000, 16000, 22050, 44100, 48000, 96000, 192000])(
    'are all found within 1 ms, and no other, at %i Hz (says FACTS.md, check values)',
    (sampleRateHz) => {
      const times = even(0.5, 0.15, 14);
      expectTimes(timesOf(clicks({ sampleRateHz, times })), times, 0.001);
    },
  );
  it.each([200, 100, 60, 44])('are told apart %i ms from each other', (gapMs) => {
    const times = even(0.5, gapMs / 1000, Math.floor(2000 / gapMs));
    expectTimes(timesOf(clicks({ times })), times, 0.001);
  });
  it.each([13, 20, 30, 60])('a grace %i ms before its main stroke is a stroke of its own (span of real flams, EAR.md)', (gapMs) => {
    const mains = even(0.5, 0.4, 6);
    const take = clicks({ times: mains, gain: 0.5 });
    const graces = clicks({ times: mains.map((time) => time - gapMs / 1000), noise: 0, gain: 0.1 });
    const samples = take.samples.map((value, i) => value + graces.samples[i]!);
    const expected = mains.flatMap((time) => [time - gapMs / 1000, time]);
    expectTimes(timesOf({ ...take, samples }), expected, 0.002);
  });
  it('nothing is heard in silence, in hiss, or in no sound at all', () => {
    for (const noise of [0, 0.01]) expect(timesOf(clicks({ times: [], noise }))).toEqual([]);
    expect(timesOf({ samples: new Float32Array(0), clock: fileClock(44100) })).toEqual([]);
    expect(timesOf({ samples: new Float32Array(10).fill(0.5), clock: fileClock(44100) })).toEqual([]);
  });
  it.each([22_050, 44_100, 48_000])(
    'two short bursts over a floor of noise are two strokes, and nothing between them, at %i Hz (says: how it was made)',
    (sampleRateHz) => {
      const random = seededRandom(7);
      const samples = Float32Array.from({ length: Math.round(1.2 * sampleRateHz) }, () => 0.0006 * (random() - 0.5) + 0.0001);
      for (const timeSec of [0.3, 0.8]) {
        const from = Math.round(timeSec * sampleRateHz);
        for (let i = 0; i < 0.06 * sampleRateHz; i++) samples[from + i]! += 0.6 * Math.exp(-i / (0.012 * sampleRateHz)) * (2 * random() - 1);
        samples[from] = 0.5;
      }
      expectTimes(timesOf({ samples, clock: fileClock(sampleRateHz) }), [0.3, 0.8], 0.001);
    },
  );
  it('their volume is the RMS of 20 ms in dB: twice the gain is 6.02 dB (says FACTS.md, definition)', () => {
    const levels = (gain: number) => hear(clicks({ times: [1], gain, noise: 1e-5 })).strokes[0]!.levelDb;
    expect(levels(0.5) - levels(0.25)).toBeCloseTo(6.0206, 1);
  });
});

describe('laws', () => {
  const times = [0.4, 0.52, 0.71, 0.98, 1.04, 1.3, 1.55];
  const base = clicks({ times, seconds: 2 });
  const heard = timesOf(base);
  const made = times.map((time) => heard.find((other) => Math.abs(other - time) < 1e-3) ?? Number.NaN);
  const changed = (samples: Float32Array): Take => ({ ...base, samples });

  it('sound shifted by whole samples gives strokes shifted as much', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 5000 }), (shift) => {
        const noise = clicks({ times: [], seconds: shift / 44100 });
        const samples = Float32Array.of(...noise.samples, ...base.samples);
        const shifted = timesOf(changed(samples));
        // The frames of 1 ms fall elsewhere, so the coarse time and with it the belief about the fine one move a little: a tenth of a ms.
        // More hiss is heard too, so what hangs on a hair in it may come or go; the strokes that were made may not.
        for (const time of made) expect(shifted.filter((other) => Math.abs(other - time - shift / 44100) < 1e-4)).toHaveLength(1);
      }),
      { numRuns: 8 },
    );
  });
  it('louder, softer and upside down change no time', () => {
    for (const factor of [-1, 0.01, 0.1, 1.9, -0.05]) {
      // Within a sample: rounding may tip the choice between two neighbours.
      expectTimes(timesOf(changed(base.samples.map((value) => factor * value))), heard, 1.5 / 44100);
    }
  });
  it('digital silence before and after changes no time', () => {
    const samples = new Float32Array(base.samples.length + 2 * 44100);
    samples.set(base.samples, 44100);
    expectTimes(
      timesOf(changed(samples)),
      heard.map((time) => time + 1),
      1e-4,
    );
  });
  it('the size of the blocks changes nothing, not a bit', () => {
    const whole = hear(base);
    const live = step(createEar({ sampleRateHz: 44100 }), base.samples).strokes;
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 20000 }), { minLength: 1, maxLength: 40 }), (sizes) => {
        let state = createEar({ sampleRateHz: 44100 });
        const provisional = [];
        for (let at = 0, k = 0; at < base.samples.length; at += sizes[k % sizes.length]!, k++) {
          const stepped = step(state, base.samples.subarray(at, at + sizes[k % sizes.length]!));
          state = stepped.state;
          provisional.push(...stepped.strokes);
        }
        expect(provisional).toEqual(live);
        expect(finish(state)).toEqual(whole);
      }),
      { numRuns: 8 },
    );
  });
});

describe('the causal pass', () => {
  it('gives every plain stroke within 80 ms of its sound and within 2 ms of its time (says DESIGN.md)', () => {
    const times = even(0.5, 0.15, 12);
    const { samples } = clicks({ times });
    let state = createEar({ sampleRateHz: 44100 });
    const found: number[] = [];
    for (let at = 0; at < samples.length; at += 128) {
      const stepped = step(state, samples.subarray(at, at + 128));
      state = stepped.state;
      for (const { timeSec } of stepped.strokes) {
        expect((at + 128) / 44100 - timeSec).toBeLessThan(0.08);
        found.push(timeSec);
      }
    }
    expectTimes(found, times, 0.002);
  });
});

describe('a long take', () => {
  it('is heard across the seams of its minutes, and no more than a minute of it is kept', () => {
    const sampleRateHz = 8000;
    const times = even(0.5, 0.31, 480);
    const { samples } = clicks({ sampleRateHz, times, seconds: 150 });
    const { state } = step(createEar({ sampleRateHz }), samples);
    expect(state.samples.length).toBeLessThanOrEqual(60 * sampleRateHz);
    const { strokes, loudness } = finish(state);
    const heard = strokes.map(({ timeSec }) => timeSec);
    for (const time of times) expect(heard.filter((other) => Math.abs(other - time) < 0.001)).toHaveLength(1);
    // False strokes out of the hiss: as in the test above.
    expect(heard.length - times.length).toBeLessThanOrEqual(150 / 3);
    expect((loudness!.powers.length / loudness!.bandCount) * loudness!.rowSec).toBeCloseTo(150, 1);
    // Ten to twenty milliseconds after each stroke it is louder than half way to the next, wherever the seams fall.
    const powerAt = (sec: number) => {
      const row = Math.round(sec / loudness!.rowSec) * loudness!.bandCount;
      return loudness!.powers.subarray(row, row + loudness!.bandCount).reduce((sum, power) => sum + power, 0);
    };
    for (const time of times) expect(powerAt(time + 0.01)).toBeGreaterThan(10 * powerAt(time + 0.155));
  });
});
