/** The simulated drummer errs as the literature says, and does the faults it was asked for. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { ExpectedCycle } from '../exercise/index.ts';
import { seededRandom } from '../random.ts';
import { rational } from '../rational.ts';
import type { Limb } from '../sticking/index.ts';
import { dbOfAmplitude } from '../units.ts';
import { exact, perform, performTake, styles } from './index.ts';

/** A cycle of even slots, one limb each. */
function evenCycle(limbs: string, perBeat: number): ExpectedCycle {
  const strokes = [...limbs].map((limb, index) => ({
    index,
    limb: limb as Limb,
    surface: limb === 'K' ? 'kick' : 'snare',
    beat: rational(index, perBeat),
    accent: false,
    ghost: false,
    buzz: false,
    graceCount: 0,
  }));
  return { lengthBeats: rational(limbs.length, perBeat), strokes };
}

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
function deviation(values: readonly number[]): number {
  const middle = mean(values);
  return Math.sqrt(mean(values.map((value) => (value - middle) ** 2)));
}

test('a free player has the interval statistics of Wing and Kristofferson: FACTS.md 2, σ_C 8, σ_M 3', () => {
  const style = { ...exact, clockSdMs: 8, motorSdMs: 3 };
  const cycle = evenCycle('RLRL', 2);
  const strokes = perform(cycle, { tempoBpm: 60, cycles: 25_000, style, random: seededRandom(11) });
  const intervalsMs = strokes.slice(1).map(({ timeSec }, i) => (timeSec - strokes[i]!.timeSec) * 1000);
  const usualMs = mean(intervalsMs);
  const off = intervalsMs.map((interval) => interval - usualMs);
  const lagOne = mean(off.slice(1).map((value, i) => value * off[i]!)) / mean(off.map((value) => value * value));
  // Standard errors of 100,000 intervals: .02 ms and .003; four of them.
  expect(Math.abs(deviation(intervalsMs) - 9.055385)).toBeLessThan(0.08);
  expect(Math.abs(lagOne - -0.109756)).toBeLessThan(0.013);
});

test.each([
  { name: 'expert', sdMs: 8, levelSdDb: 1 },
  { name: 'intermediate', sdMs: 15, levelSdDb: 2 },
  { name: 'beginner', sdMs: 25, levelSdDb: 3 },
] as const)('a player who is $name strays $sdMs ms and $levelSdDb dB: FACTS.md 2, simulator presets', ({ name, sdMs, levelSdDb }) => {
  const strokes = perform(evenCycle('RLRL', 4), {
    tempoBpm: 60,
    cycles: 5000,
    style: { ...styles[name], wanderShare: 0 },
    random: seededRandom(5),
  });
  const errorsMs = strokes.map(({ timeSec }, i) => (timeSec - i * 0.25) * 1000);
  // The presets are round figures and correlated errors count less than independent ones: 6 %.
  expect(Math.abs(deviation(errorsMs) / sdMs - 1)).toBeLessThan(0.06);
  expect(Math.abs(deviation(strokes.map(({ levelDb }) => levelDb)) / levelSdDb - 1)).toBeLessThan(0.03);
});

test('an exact player is exact: arithmetic 60/120/4', () => {
  const strokes = perform(evenCycle('RLRLKK', 4), { tempoBpm: 120, cycles: 3, startSec: 2, style: exact, random: seededRandom(1) });
  expect(strokes).toHaveLength(18);
  for (const [i, { timeSec, levelDb, index, cycle, missed }] of strokes.entries()) {
    expect(timeSec).toBeCloseTo(2 + i * 0.125, 9);
    expect({ index, cycle, missed }).toEqual({ index: i % 6, cycle: Math.floor(i / 6), missed: false });
    expect(levelDb).toBe(strokes[0]!.levelDb);
  }
});

test('faults come where they were asked for and nowhere else: law', () => {
  const cycle = evenCycle('RLRLKK', 4);
  const place = fc.record({ index: fc.nat(5), earlyMs: fc.integer({ min: -30, max: 30 }), softDb: fc.integer({ min: -6, max: 12 }) });
  fc.assert(
    fc.property(place, fc.nat(1000), (fault, seed) => {
      const options = { tempoBpm: 92, cycles: 4, style: styles.expert };
      const clean = perform(cycle, { ...options, random: seededRandom(seed) });
      const faulty = perform(cycle, { ...options, faults: [fault], random: seededRandom(seed) });
      for (const [i, stroke] of faulty.entries()) {
        const here = stroke.index === fault.index;
        expect((stroke.timeSec - clean[i]!.timeSec) * 1000).toBeCloseTo(here ? -fault.earlyMs : 0, 6);
        expect(stroke.levelDb - clean[i]!.levelDb).toBeCloseTo(here ? -fault.softDb : 0, 6);
      }
    }),
    { numRuns: 30, seed: 3 },
  );
});

test('a share of strokes is missing, and is told but not heard: arithmetic', () => {
  const options = { tempoBpm: 100, cycles: 400, style: exact, faults: [{ index: 1, missShare: 0.25 }], random: seededRandom(9) };
  const strokes = perform(evenCycle('RL', 2), options);
  const missed = strokes.filter(({ missed }) => missed);
  expect(new Set(missed.map(({ index }) => index))).toEqual(new Set([1]));
  // Four standard deviations of a binomial of 400 at .25.
  expect(Math.abs(missed.length - 100)).toBeLessThan(35);
});

test('a flam, a drag and a buzz come with what belongs to them: EAR.md 9, medians of real flams and drags', () => {
  const written = { ...evenCycle('R', 1).strokes[0]!, buzz: true };
  const played = (graceCount: number) => {
    const cycle = { ...evenCycle('R', 1), strokes: [{ ...written, graceCount }] };
    return perform(cycle, { tempoBpm: 60, cycles: 1, startSec: 1, style: exact, random: seededRandom(1) })[0]!;
  };
  expect(played(1).graces.map(({ timeSec }) => timeSec)).toEqual([expect.closeTo(1 - 0.047, 9)]);
  expect(played(2).graces.map(({ timeSec }) => timeSec)).toEqual([expect.closeTo(1 - 0.059, 9), expect.closeTo(1 - 0.0295, 9)]);
  const { bounces, levelDb } = played(0);
  expect(bounces.length).toBeGreaterThan(2);
  expect(bounces.every((bounce, i) => bounce.timeSec > 1 && bounce.levelDb < (bounces[i - 1]?.levelDb ?? levelDb))).toBe(true);
});

test('errors grow where a limb plays faster than is easy: FACTS.md 2 (timing variability grows with tempo)', () => {
  const spread = (tempoBpm: number) => {
    const strokes = perform(evenCycle('RR', 4), { tempoBpm, cycles: 3000, style: { ...exact, motorSdMs: 5 }, random: seededRandom(2) });
    return deviation(strokes.map(({ timeSec }, i) => (timeSec - (i * 15) / tempoBpm) * 1000));
  };
  expect(spread(60)).toBeCloseTo(5, 0);
  expect(spread(150)).toBeGreaterThan(8);
});

test('a wandering tempo stays near the one told: 5 % by assumption', () => {
  const style = { ...exact, wanderShare: 0.02 };
  const strokes = perform(evenCycle('R', 1), { tempoBpm: 120, cycles: 500, style, random: seededRandom(4) });
  const tempi = strokes.slice(1).map(({ timeSec }, i) => 60 / (timeSec - strokes[i]!.timeSec));
  expect(Math.min(...tempi)).toBeGreaterThan(120 * 0.9499);
  expect(Math.max(...tempi)).toBeLessThan(120 * 1.0501);
  expect(deviation(tempi)).toBeGreaterThan(1);
});

describe('a take of a performance', () => {
  const options = {
    tempoBpm: 80,
    cycles: 2,
    startSec: 1.5,
    style: styles.expert,
    faults: [{ index: 5, earlyMs: 18, softDb: 6 }],
    sampleRateHz: 44100,
    room: { decaySec: 0.3, directDb: 9, delaySec: 0.004 },
  };
  const take = performTake(evenCycle('RLRLKK', 4), { ...options, random: seededRandom(21) });
  const levelDb = (fromSec: number, toSec: number) => {
    const part = take.samples.subarray(Math.round(fromSec * 44100), Math.round(toSec * 44100));
    return dbOfAmplitude(Math.sqrt(part.reduce((sum, sample) => sum + sample * sample, 0) / part.length));
  };

  test('is the same for the same seed', () => {
    expect(performTake(evenCycle('RLRLKK', 4), { ...options, random: seededRandom(21) }).samples).toEqual(take.samples);
  });

  test('is quiet, but never digitally silent, until the first stroke', () => {
    const quiet = take.samples.subarray(0, Math.round((take.strokes[0]!.timeSec - 0.001) * 44100));
    expect(levelDb(0, 1.4)).toBeCloseTo(-72, 0);
    expect(quiet.some((sample, i) => sample === 0 && quiet[i + 1] === 0)).toBe(false);
  });

  test('holds each stroke at the volume told, within what the room and the stroke before add: 3 dB', () => {
    for (const stroke of take.strokes) expect(Math.abs(levelDb(stroke.timeSec, stroke.timeSec + 0.02) - stroke.levelDb)).toBeLessThan(3);
  });
});
