/** The sounds of the click: where they begin, how loud they are beside each other, and how their voices are told apart. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { loudnessLkfs } from '../signal/index.ts';
import { dbOfAmplitude } from '../units.ts';
import { CLICK_SOUNDS, type ClickKind, type ClickSound, renderClick, truePeak } from './index.ts';

const KINDS: readonly ClickKind[] = ['bar', 'beat', 'subdivision'];
const RATE = 48_000;

/** Four seconds of one voice, twice a second, or of bars of four at 120 when none is said. */
function row(sound: ClickSound, kind?: ClickKind): Float32Array {
  const samples = new Float32Array(4 * RATE);
  for (let beat = 0; beat < 8; beat++) samples.set(renderClick(kind ?? (beat % 4 === 0 ? 'bar' : 'beat'), RATE, sound), beat * 24_000);
  return samples;
}

const rmsDb = (samples: Float32Array) => dbOfAmplitude(Math.sqrt(samples.reduce((sum, sample) => sum + sample * sample, 0) / samples.length));

describe.each(CLICK_SOUNDS.flatMap((sound) => KINDS.map((kind) => ({ sound, kind }))))('$sound, the click of a $kind', ({ sound, kind }) => {
  test.each([8000, 44_100, 48_000, 96_000])('is short, begins at its first sample and ends in silence at %i Hz (EAR.md, onset)', (rateHz) => {
    const click = renderClick(kind, rateHz, sound);
    const peak = click.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
    expect(Math.abs(click[0]!)).toBeGreaterThanOrEqual(0.1 * peak);
    expect(click.length / rateHz).toBeLessThan(0.05);
    expect(Math.abs(click.at(-1)!)).toBeLessThan(1e-6);
    // Louder by 6 dB by choice, it still is no clipped click.
    expect(dbOfAmplitude(truePeak(click))).toBeLessThan(-6);
  });

  test('is as strong as it gets within 2 ms (assumption: half of what two strokes may lie apart and be heard as one)', () => {
    const click = renderClick(kind, RATE, sound);
    const peak = click.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
    // The crest itself may come with a later partial: .8 of it is meant.
    expect(click.findIndex((sample) => Math.abs(sample) >= 0.8 * peak) / RATE).toBeLessThanOrEqual(0.002);
  });

  test('is as loud as the soft tone, to .1 LU, its peak within 3 dB (says: ITU-R BS.1770; a step of .1 is what its meters show)', () => {
    expect(Math.abs(loudnessLkfs([row(sound, kind)], RATE)! - asLoudAs[kind])).toBeLessThan(0.1);
    const peakDb = (which: ClickSound) => dbOfAmplitude(truePeak(renderClick(kind, RATE, which)));
    expect(Math.abs(peakDb(sound) - peakDb('tone'))).toBeLessThan(3);
  });
});

/** Of the soft tone, measured once. */
const asLoudAs = Object.fromEntries(KINDS.map((kind) => [kind, loudnessLkfs([row('tone', kind)], RATE)!])) as Record<ClickKind, number>;

test('bars in every sound are as loud to another meter too, to .2 LU (says: ffmpeg ebur128, which shows tenths)', ({ skip }) => {
  try {
    execFileSync('ffmpeg', ['-version']);
  } catch {
    skip('ffmpeg is not installed: no other meter is asked');
  }
  const folder = mkdtempSync(join(tmpdir(), 'evenhand-click-'));
  const heard = CLICK_SOUNDS.map((sound) => {
    const file = join(folder, `${sound}.raw`);
    writeFileSync(file, new Uint8Array(row(sound).buffer));
    const how = ['-hide_banner', '-nostats', '-f', 'f32le', '-ar', String(RATE), '-ac', '1', '-i', file];
    const said = execFileSync('sh', ['-c', 'ffmpeg "$@" 2>&1', 'ffmpeg', ...how, '-af', 'ebur128', '-f', 'null', '-'], { encoding: 'utf8' });
    return Number(/I:\s+(-?[\d.]+) LUFS\s+Threshold/.exec(said)![1]);
  });
  rmSync(folder, { recursive: true });
  expect(heard.every((lufs) => Math.abs(lufs - heard[0]!) <= 0.2)).toBe(true);
  expect(heard[0]!).toBeGreaterThan(-60);
});

describe.each(CLICK_SOUNDS)('the voices of %s', (sound) => {
  const powers = KINDS.map((kind) => powerOf(renderClick(kind, RATE, sound)));

  test('fall in volume from bar to part, and in pitch by a major third at least (assumption: heard as another note at once)', () => {
    const [bar, beat, part] = KINDS.map((kind) => rmsDb(renderClick(kind, RATE, sound))) as [number, number, number];
    expect(bar - beat).toBeGreaterThan(1);
    expect(beat - part).toBeGreaterThan(1);
    const [high, middle, low] = powers.map(strongestHz) as [number, number, number];
    expect(high / middle).toBeGreaterThan(1.25);
    expect(middle / low).toBeGreaterThan(1.25);
  });

  test('lie where a signal in noise is to lie: most of their energy from 350 to 2,500 Hz (says: ISO 7731, from 500 Hz; the part of a beat may be lower)', () => {
    for (const [k, kind] of KINDS.entries()) {
      const power = powers[k]!;
      const share = (from: number, to: number) => power.filter(({ hz }) => hz >= from && hz < to).reduce((sum, one) => sum + one.power, 0);
      expect(share(kind === 'subdivision' ? 350 : 450, 2500) / share(0, RATE / 2)).toBeGreaterThan(0.5);
    }
  });
});

test('the soft tone is sample for sample what it was before there was a choice (says: its formula of then, by which older takes are heard)', () => {
  const [hz, peak] = [1568, 10 ** (-6 / 20)];
  const before = Float32Array.from({ length: 1680 }, (_, i) => {
    const sec = i / RATE;
    const rise = Math.min(1, 0.2 + (0.8 * sec) / 0.0003);
    const wave = 0.8 * Math.cos(2 * Math.PI * hz * sec) + 0.2 * Math.cos(4 * Math.PI * hz * sec);
    return peak * rise * Math.exp(-sec / 0.008) * (1 - i / 1679) * wave;
  });
  const now = renderClick('bar', RATE);
  expect(Math.max(...now.map((sample, i) => Math.abs(sample - before[i]!)))).toBeLessThan(1e-6);
});

type Power = readonly { readonly hz: number; readonly power: number }[];

/** Power every 50 Hz, by the sum of products with waves: slow, plain, and nobody's FFT. */
function powerOf(click: Float32Array): Power {
  return Array.from({ length: 240 }, (_, k) => {
    const hz = 50 * (k + 1);
    let [re, im] = [0, 0];
    click.forEach((sample, i) => {
      re += sample * Math.cos((2 * Math.PI * hz * i) / RATE);
      im += sample * Math.sin((2 * Math.PI * hz * i) / RATE);
    });
    return { hz, power: re * re + im * im };
  });
}

/** Middle of the half octave that holds most. */
function strongestHz(power: Power): number {
  const held = power.map(({ hz }) =>
    power.filter((one) => one.hz > hz / 2 ** 0.25 && one.hz < hz * 2 ** 0.25).reduce((sum, one) => sum + one.power, 0),
  );
  return power[held.indexOf(Math.max(...held))]!.hz;
}
