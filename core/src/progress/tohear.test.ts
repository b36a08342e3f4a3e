/** Then and now to be heard: laid alongside by the ear, equally loud. */
import { describe, expect, test } from 'vitest';
import { expectedCycle, readContent } from '../exercise/index.ts';
import { measure } from '../measurement/index.ts';
import { median, quantile } from '../quantiles.ts';
import { normal, seededRandom } from '../random.ts';
import { loudnessLkfs, resampled } from '../signal/index.ts';
import { renderStrokes, truePeak } from '../sound/index.ts';
import { readSticking } from '../sticking/index.ts';
import { hear } from '../stroke/index.ts';
import { fileClock } from '../take/index.ts';
import { type HeardAs, type SoundingTake, thenNowSound } from './index.ts';
import { madeMeasurement } from './made.case.ts';

const cycle = expectedCycle(readContent(readSticking('RLRLKK').value!, { perBeat: 4 }).value!);
const TEMPO_BPM = 126;
const SLOT_SEC = 60 / TEMPO_BPM / 4;
const CYCLES = 14;

interface Planted {
  readonly take: SoundingTake;
  /** Onset of each stroke, seconds of the take, by cycle and index. */
  readonly onsetsSec: readonly number[];
}

/** A take of which every onset is known. */
function planted({
  sampleRateHz,
  startSec,
  secondKick,
  loudDb,
  seed,
}: {
  readonly sampleRateHz: number;
  readonly startSec: number;
  readonly secondKick: { readonly ms: number; readonly db: number };
  readonly loudDb: number;
  readonly seed: number;
}): Planted {
  const random = seededRandom(seed);
  const onsetsSec = Array.from(
    { length: CYCLES * 6 },
    (_, k) => startSec + k * SLOT_SEC + (4 * normal(random) + (k % 6 === 5 ? secondKick.ms : 0)) / 1000,
  );
  const strokes = onsetsSec.map((timeSec, k) => ({
    timeSec,
    surface: k % 6 > 3 ? 'kick' : 'snare',
    levelDb: loudDb + (k % 6 === 5 ? secondKick.db : 0),
  }));
  const durationSec = startSec + CYCLES * 6 * SLOT_SEC + 0.5;
  const samples = renderStrokes(strokes, { sampleRateHz, durationSec, random, strikesPerDrum: 6 });
  const { candidates } = hear({ samples, clock: fileClock(sampleRateHz) });
  const measurement = measure(candidates, cycle, { tempoBpm: TEMPO_BPM, durationSec }).value!;
  return { take: { samples, sampleRateHz, measurement }, onsetsSec };
}

const then = planted({ sampleRateHz: 44_100, startSec: 0.731, secondKick: { ms: -18, db: -6 }, loudDb: -34, seed: 1 });
const now = planted({ sampleRateHz: 48_000, startSec: 1.204, secondKick: { ms: 0, db: 0 }, loudDb: -24, seed: 2 });
const heardAs = (as: HeardAs) => thenNowSound(then.take, now.take, { as, wantedSec: 5 })!;
const sound = heardAs('oneEarEach');

/** Onsets that fall into a stretch of a take, seconds from its start. */
const within = ({ onsetsSec }: Planted, fromSec: number) =>
  onsetsSec.map((sec) => sec - fromSec).filter((sec) => sec >= 0 && sec < sound.alongside.durationSec);

describe('then and now to be heard', () => {
  test('the strokes that did not change lie within 1 ms of each other in the middle (says: where they were planted)', () => {
    const { thenFromSec, nowFromSec } = sound.alongside;
    const [was, is] = [within(then, thenFromSec), within(now, nowFromSec)];
    expect(was.length).toBe(6 * sound.alongside.cycleCount);
    expect(is.length).toBe(was.length);
    expect(Math.abs(median(is.map((sec, k) => sec - was[k]!)))).toBeLessThan(0.001);
  });

  test('the ear, given both ears’ sound alone, finds them within 1 ms (says: the ear on what comes out)', () => {
    const heard = [sound.left, sound.right].map((samples) =>
      hear({ samples, clock: fileClock(sound.sampleRateHz) }).strokes.map(({ timeSec }) => timeSec),
    );
    const steps = heard[0]!.flatMap((sec) => {
      const near = heard[1]!.filter((other) => Math.abs(other - sec) < SLOT_SEC / 3).map((other) => other - sec);
      return near.length === 1 ? near : [];
    });
    expect(steps.length).toBeGreaterThan(4 * sound.alongside.cycleCount);
    expect(Math.abs(median(steps))).toBeLessThan(0.001);
  });

  test('a take ten decibels softer is as loud as the other within .1 LU, and nothing peaks above −1 dBTP (says: ITU-R BS.1770-4)', () => {
    const [was, is] = [loudnessLkfs([sound.left], 48_000)!, loudnessLkfs([sound.right], 48_000)!];
    expect(Math.abs(was - is)).toBeLessThan(0.1);
    expect(sound.thenGainDb - sound.nowGainDb).toBeGreaterThan(5);
    const peakDb = 20 * Math.log10(Math.max(truePeak(sound.left), truePeak(sound.right)));
    // As loud as it may be: the louder peak stands at the ceiling.
    expect(peakDb).toBeLessThan(-0.99);
    expect(peakDb).toBeGreaterThan(-1.2);
  });

  test('in turn: then, now, and both once more, in both ears (arithmetic: four stretches)', () => {
    const turns = heardAs('inTurn');
    expect(turns.left).toBe(turns.right);
    expect(turns.left.length).toBe(4 * sound.left.length);
    const { length } = sound.left;
    const differs = (from: number, other: Float32Array) => other.findIndex((sample, i) => sample !== turns.left[from + i]);
    expect([differs(0, sound.left), differs(length, sound.right), differs(2 * length, sound.left), differs(3 * length, sound.right)]).toEqual([
      -1, -1, -1, -1,
    ]);
  });

  test.each([0.5, 0.75])(
    'slowed to %d the ear finds the strokes where they were played, stretched, within 1 ms (says: where they were planted)',
    (speed) => {
      const slow = thenNowSound(then.take, now.take, { as: 'oneEarEach', wantedSec: 5, speed })!;
      expect(slow.left.length).toBe(Math.round(sound.left.length / speed));
      for (const [samples, take, fromSec] of [
        [slow.left, then, slow.alongside.thenFromSec],
        [slow.right, now, slow.alongside.nowFromSec],
      ] as const) {
        const heard = hear({ samples, clock: fileClock(slow.sampleRateHz) }).strokes.map(({ timeSec }) => timeSec);
        const asked = within(take, fromSec);
        const off = asked.map((sec) => Math.min(...heard.map((at) => Math.abs(at - sec / speed))));
        expect(quantile(off, 0.95)).toBeLessThan(0.001);
        // What rings on is drawn out, and is no stroke: one in twenty is let pass.
        expect(heard.length).toBeLessThan(1.05 * asked.length + 1);
      }
      expect(Math.abs(loudnessLkfs([slow.left], 48_000)! - loudnessLkfs([slow.right], 48_000)!)).toBeLessThan(0.1);
    },
  );

  test('takes without strokes in common give nothing', () => {
    const none = { ...now.take, measurement: madeMeasurement([{ limb: 'R' }], { cycles: 1 }) };
    expect(thenNowSound(then.take, none, { as: 'inTurn', wantedSec: 5 })).toBeNull();
  });
});

test('a sine keeps its height and its length at another rate (arithmetic)', () => {
  const sine = (hz: number) => Float32Array.from({ length: hz }, (_, i) => Math.sin((2 * Math.PI * 1000 * i) / hz));
  const out = resampled(sine(44_100), 44_100, 48_000);
  expect(out.length).toBe(48_000);
  // 16 crossings of the kernel: a thousandth, away from the ends.
  expect(
    Math.max(
      ...sine(48_000)
        .slice(500, 47_500)
        .map((sample, i) => Math.abs(sample - out[i + 500]!)),
    ),
  ).toBeLessThan(0.001);
});
