/** Sound files of every kind that other programs wrote: the strokes stand where they were made. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { inMemory, type Take, takeOf } from '@evenhand/core/take';
import { describe, expect, onTestFinished, test } from 'vitest';
import { hasFfmpeg } from '../src/ffmpeg.ts';
import { openBytes } from '../src/file-bytes.ts';
import { hearFile } from '../src/hearing.ts';
import { openSound } from '../src/sound.ts';
import { CLICK_TRAIN_FRAMES, CLICK_TRAIN_RATE_HZ, clickTrain } from './click-train.ts';
import { evenhandJson, fileOf } from './evenhand.ts';

const place = (name: string) => join(import.meta.dirname, '../fixtures/sounds', name);
/** Any frame, delay or padding counted wrongly moves by more than this. */
const LAG_SEC = 0.0001;

const TRUE_SEC = CLICK_TRAIN_FRAMES.map((frame) => frame / CLICK_TRAIN_RATE_HZ);

async function takeFrom(name: string): Promise<{ take: Take; problems: readonly { code: string }[] }> {
  const bytes = openBytes(place(name)).value!;
  const { stream, problems: refused, done } = await openSound(place(name), bytes);
  onTestFinished(() => {
    done();
    bytes.close();
  });
  expect(refused).toEqual([]);
  const { value, problems } = takeOf(stream!);
  return { take: value!, problems };
}

/**
 * How much later than in `clickTrain` a stroke stands, by the lag at which its first 20 ms and those of the original are most alike: what encoders
 * smear before a stroke ("pre-echo", up to 3 ms at these rates, louder than a tenth of its peak) is their sound, not the reader's clock.
 */
const lagsSec = ({ samples, clock: { sampleRateHz } }: Take, laterSec = 0): number[] => {
  const train = clickTrain();
  const at = (sec: number) => {
    const place = sec * CLICK_TRAIN_RATE_HZ;
    const share = place - Math.floor(place);
    return (1 - share) * train[Math.floor(place)]! + share * train[Math.floor(place) + 1]!;
  };
  return TRUE_SEC.map((trueSec) => {
    const alike = (lag: number): number => {
      let sum = 0;
      for (let i = 0; i < 0.02 * sampleRateHz; i++) {
        const place = Math.round((trueSec + laterSec) * sampleRateHz) + i;
        sum += samples[place + lag]! * at(place / sampleRateHz - laterSec);
      }
      return sum;
    };
    const reach = Math.round(0.003 * sampleRateHz);
    const alikes = Array.from({ length: 2 * reach + 1 }, (_, i) => Math.abs(alike(i - reach)));
    return (alikes.indexOf(Math.max(...alikes)) - reach) / sampleRateHz;
  });
};

describe('the strokes of a compressed file stand within 0.1 ms of where they were made, and it is as long', () => {
  test.each([
    { file: 'strokes.mp3', says: 'LAME', rate: 44_100, laterSec: 0, longerSec: 0 },
    // Without its encoder's word only the decoder's delay is known; what remains is LAME's usual delay of 576 samples.
    { file: 'no-info.mp3', says: 'ffmpeg', rate: 44_100, laterSec: 576 / 44_100, longerSec: (2 * 1152) / 44_100 },
    { file: 'strokes.ogg', says: 'oggenc', rate: 44_100, laterSec: 0, longerSec: 0 },
    { file: 'strokes.opus', says: 'opusenc', rate: 48_000, laterSec: 0, longerSec: 0 },
    // WebM does not say where in the last packet the sound ends: one packet of 20 ms, in Vorbis at most 2048 samples.
    { file: 'opus.webm', says: 'ffmpeg', rate: 48_000, laterSec: 0, longerSec: 0.02 },
    { file: 'vorbis.webm', says: 'ffmpeg', rate: 44_100, laterSec: 0, longerSec: 2048 / 44_100 },
  ])('$file (says: $says)', async ({ file, rate, laterSec, longerSec }) => {
    const { take, problems } = await takeFrom(file);
    expect(problems).toEqual([]);
    expect(take.clock.sampleRateHz).toBe(rate);
    for (const lagSec of lagsSec(take, laterSec)) expect(Math.abs(lagSec)).toBeLessThan(LAG_SEC);
    const durationSec = take.samples.length / rate;
    expect(durationSec).toBeGreaterThan(1.25 - 1e-3);
    expect(durationSec).toBeLessThan(1.25 + longerSec + 1e-3);
  });

  test.each(['pair.mp3', 'pair.opus'])('%s: two channels that cancel give the stronger one (says: the file they were made of)', async (file) => {
    const { take } = await takeFrom(file);
    const peak = take.samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    // The mean of the two would have a twentieth of the peak of 0.6.
    expect(peak).toBeGreaterThan(0.4);
    for (const lagSec of lagsSec(take)) expect(Math.abs(lagSec)).toBeLessThan(LAG_SEC);
  });
});

describe('an AIFF file holds the samples it was made of', () => {
  const written = clickTrain().map((value) => Math.fround(Math.round(value * 32_768) / 32_768));
  // Eight bits of mu-law: steps of at most 1/32 of the value (G.711: 16 steps per octave, half a step off).
  const step = (value: number) => Math.abs(value) / 31 + 1e-3;
  test.each([
    { file: 'strokes.aiff', says: 'SoX', frames: 22_050, within: () => 0 },
    { file: 'float.aifc', says: 'SoX', frames: 13_230, within: () => 0 },
    { file: 'sowt.aifc', says: 'ffmpeg', frames: 13_230, within: () => 0 },
    // One step of eight bits, for SoX adds noise of its own before rounding.
    { file: 'eight.aifc', says: 'SoX', frames: 13_230, within: () => 1.5 / 128 },
    { file: 'mu-law.aifc', says: 'ffmpeg', frames: 13_230, within: step },
  ])('$file (says: $says)', async ({ file, frames, within }) => {
    const { take, problems } = await takeFrom(file);
    expect([problems, take.clock.sampleRateHz, take.samples.length]).toEqual([[], 44_100, frames]);
    const off = take.samples.findIndex((value, i) => Math.abs(value - written[i]!) > within(written[i]!));
    expect(off).toBe(-1);
  });
});

describe('evenhand strokes', () => {
  // What encoders smear before a stroke (pre-echo) is part of their sound: 5 ms is where confidence ends (EAR.md).
  test('hears an MP3 file', () => {
    const { exit, json } = evenhandJson('strokes', place('strokes.mp3'));
    expect([exit, json.problems, json.strokes.length]).toEqual([0, [], 4]);
  });

  test.each(['strokes.mp3', 'strokes.ogg', 'strokes.opus', 'opus.webm'])('hears the strokes of %s within 5 ms', async (file) => {
    const { hearing, problems } = await hearFile(place(file), null);
    expect(problems).toEqual([]);
    const times = hearing!.strokes.map(({ timeSec }) => timeSec);
    for (const trueSec of TRUE_SEC) expect(times.filter((sec) => Math.abs(sec - trueSec) < 0.005)).toHaveLength(1);
  });

  if (!hasFfmpeg()) process.stderr.write('sound-files.test.ts: skipped, ffmpeg is not installed, so an M4A file was not read through it\n');
  test.skipIf(!hasFfmpeg())('reads an M4A file through an installed ffmpeg (says: ffmpeg)', async () => {
    const { take } = await takeFrom('strokes.m4a');
    for (const lagSec of lagsSec(take)) expect(Math.abs(lagSec)).toBeLessThan(LAG_SEC);
  });

  test('without ffmpeg an M4A file is told to need it, in a sentence that says what to do', () => {
    const path = process.env.PATH;
    onTestFinished(() => {
      process.env.PATH = path;
    });
    process.env.PATH = '';
    const { exit, json, stderr } = evenhandJson('strokes', place('strokes.m4a'));
    expect([exit, json.problems[0].code, json.strokes]).toEqual([1, 'sound-needs-ffmpeg', []]);
    expect(stderr).toMatch(/ffmpeg.*WAV/);
  });

  test.each([
    { file: 'strokes.mp3', code: 'take-damaged' },
    { file: 'strokes.ogg', code: 'take-damaged' },
    { file: 'strokes.opus', code: 'take-damaged' },
    { file: 'opus.webm', code: 'take-damaged' },
    { file: 'strokes.aiff', code: 'take-cut-short' },
  ])('says that nine tenths of $file are not the whole of it', async ({ file, code }) => {
    const whole = readFileSync(place(file));
    const { hearing, problems } = await hearFile(fileOf(file, whole.subarray(0, Math.round(whole.length * 0.9))), null);
    expect(problems[0]!.code).toBe(code);
    expect(hearing!.durationSec).toBeLessThan(1.24);
  });
});

test('a file read a stretch at a time gives the bytes it holds, wherever they are asked for (says: the file in memory)', () => {
  const whole = readFileSync(place('float.aifc'));
  const bytes = openBytes(fileOf('copy', Buffer.concat([whole, whole, whole, whole, whole, whole]))).value!;
  const memory = inMemory(Buffer.concat([whole, whole, whole, whole, whole, whole]));
  expect(bytes.byteCount).toBe(memory.byteCount);
  for (const [from, to] of [
    [0, 12],
    [300_000, 300_040],
    [5, 9],
    [250_000, 330_000],
    [318_000, 999_999],
    [318_072, 318_072],
  ] as const) {
    expect(Buffer.from(bytes.read(from, to)).equals(Buffer.from(memory.read(from, to)))).toBe(true);
  }
  bytes.close();
});
