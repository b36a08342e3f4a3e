/** FLAC is held against the reference program: what is written passes its test, and both ways give the same samples. */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decodeFlac, encodeFlac, isFlac, wholeSamples } from './index.ts';

const hasFlac = spawnSync('flac', ['--version']).status === 0;
if (!hasFlac) process.stderr.write('flac.test.ts: skipped, the program flac is not installed, so files were not held against it\n');

const folder = mkdtempSync(join(tmpdir(), 'evenhand-flac-'));

/** Whole numbers that make runs of bytes 0 and 255, which the library folds and unfolds, beside any others. */
const edges = (bits: number) => {
  const full = 2 ** (bits - 1);
  return [0, -1, 1, 255, 256, 257, -255, -256, -257, full - 1, -full, 0x0100, 0x00ff, -0x0100].filter((value) => value >= -full && value < full);
};
const wholes = (bits: 16 | 24) =>
  fc.array(fc.oneof(fc.constantFrom(...edges(bits)), fc.integer({ min: -(2 ** (bits - 1)), max: 2 ** (bits - 1) - 1 })), { maxLength: 9000 });

const floats = (values: readonly number[], bits: number) => Float32Array.from(values, (value) => value / 2 ** (bits - 1));

/** What the reference program decodes, as whole numbers of one channel. */
function byReference(flac: Uint8Array, bits: number): number[] {
  const file = join(folder, 'take.flac');
  writeFileSync(file, flac);
  execFileSync('flac', ['-t', '-s', '-w', file]);
  const raw = execFileSync('flac', ['-d', '-s', '-c', '--force-raw-format', '--endian=little', '--sign=signed', file], { maxBuffer: 1e9 });
  return Array.from({ length: raw.length / (bits / 8) }, (_, i) => raw.readIntLE((i * bits) / 8, bits / 8));
}

/** The first place where two lists of samples differ, null when they are the same: a message one can read. */
function firstDifference(a: ArrayLike<number>, b: ArrayLike<number>): string | null {
  const at = Array.from({ length: Math.max(a.length, b.length) }, (_, i) => i).find((i) => a[i] !== b[i]);
  return at === undefined ? null : `at ${at}: ${a[at]} is not ${b[at]}`;
}

describe('a take written as FLAC', () => {
  it.each([16, 24] as const)('comes back sample for sample, %i bits', async (bits) => {
    await fc.assert(
      fc.asyncProperty(wholes(bits), fc.constantFrom(8000, 44100, 48000, 96000), async (values, sampleRateHz) => {
        const samples = floats(values, bits);
        const flac = await encodeFlac(samples, sampleRateHz);
        const { damaged, ...read } = await decodeFlac(flac);
        expect(damaged).toBe(false);
        expect(read).toMatchObject({ sampleRateHz, promisedCount: values.length });
        expect(firstDifference(read.samples, samples)).toBe(null);
        expect(await encodeFlac(read.samples, sampleRateHz)).toEqual(flac);
      }),
      { numRuns: 40 },
    );
  });

  it.skipIf(!hasFlac).each([16, 24] as const)('passes `flac -t` and decodes to the same samples, %i bits (says: flac of Xiph.Org)', async (bits) => {
    for (const values of fc.sample(wholes(bits), { numRuns: 12, seed: bits })) {
      const odd = [...values, bits === 24 ? 1 : 0];
      expect(firstDifference(byReference(await encodeFlac(floats(odd, bits), 48000), bits), odd)).toBe(null);
    }
  });

  it('holds no time, no title and no padding: the header, a comment that names the library, the frames', async () => {
    const flac = Buffer.from(await encodeFlac(new Float32Array(10), 48000));
    expect(isFlac(flac)).toBe(true);
    const blocks: (readonly [type: number, length: number])[] = [];
    for (let at = 4, last = false; !last; at += 4 + blocks.at(-1)![1]) {
      last = flac[at]! >= 128;
      blocks.push([flac[at]! & 127, flac.readUIntBE(at + 1, 3)]);
    }
    expect(blocks).toEqual([
      [0, 34],
      [4, 4 + 32 + 4],
    ]);
    expect(flac.toString('latin1', 50, 82)).toBe('reference libFLAC 1.3.4 20220220');
  });

  it('keeps any samples within half a step of 24 bits, and clips what is beyond full scale', () => {
    fc.assert(
      fc.property(fc.float32Array({ min: -1, max: Math.fround(0.9999), noNaN: true, minLength: 1 }), (samples) => {
        const { bits, values } = wholeSamples(samples);
        for (const [i, value] of values.entries()) expect(Math.abs(value / 2 ** (bits - 1) - samples[i]!)).toBeLessThanOrEqual(2 ** -24);
      }),
    );
    expect([...wholeSamples(Float32Array.from([2, -2, 1, Number.NaN, Number.POSITIVE_INFINITY])).values]).toEqual([
      0x7fffff, -0x800000, 0x7fffff, 0, 0x7fffff,
    ]);
  });

  it('takes 16 bits only when that loses nothing', () => {
    expect(wholeSamples(floats([1, -32768, 32767], 16))).toEqual({ bits: 16, values: Int32Array.from([1, -32768, 32767]) });
    expect(wholeSamples(floats([256, 257], 24)).bits).toBe(24);
  });

  it('says that a rate is none', async () => {
    await expect(encodeFlac(new Float32Array(1), 44100.5)).rejects.toThrow(/sampleRateHz/);
  });
});

describe('a FLAC file from elsewhere', () => {
  const ramp = Float32Array.from({ length: 10_000 }, (_, i) => Math.round(20_000 * Math.sin(i / 7)) / 32768);

  it.skipIf(!hasFlac).each([
    { bits: 8, channels: 1, level: '-5' },
    { bits: 8, channels: 2, level: '-8' },
    { bits: 16, channels: 1, level: '-0' },
    { bits: 16, channels: 2, level: '-8' },
    { bits: 24, channels: 1, level: '-8' },
    { bits: 24, channels: 2, level: '-5' },
  ])(
    'of $bits bits and $channels channels, packed with $level, gives the mean of its channels (says: flac of Xiph.Org)',
    async ({ bits, channels, level }) => {
      const steps = 2 ** (bits - 1);
      const raw = Buffer.alloc((ramp.length * channels * bits) / 8);
      const whole = (i: number, channel: number) => Math.round(ramp[i]! * (steps - 1) * (channel === 0 ? 1 : 0.5)) + (channel === 0 ? 0 : 2);
      for (let i = 0; i < ramp.length * channels; i++) raw.writeIntLE(whole(Math.floor(i / channels), i % channels), (i * bits) / 8, bits / 8);
      const form = ['--force-raw-format', '--endian=little', '--sign=signed', `--bps=${bits}`, `--channels=${channels}`, '--sample-rate=44100'];
      const flac = execFileSync('flac', ['-s', '-c', level, ...form, '-'], { input: raw, stdio: ['pipe', 'pipe', 'ignore'] });
      const read = await decodeFlac(flac);
      const mean = ramp.map((_, i) => (channels === 1 ? whole(i, 0) : whole(i, 0) + whole(i, 1)) / channels / steps);
      expect({ bits: read.bits, damaged: read.damaged }).toEqual({ bits, damaged: false });
      expect(firstDifference(read.samples, mean)).toBe(null);
    },
  );

  it.skipIf(!hasFlac)('of 20 bits gives nothing rather than noise', async () => {
    const data = Buffer.alloc(3 * ramp.length);
    for (let i = 0; i < ramp.length; i++) data.writeIntLE(Math.round(ramp[i]! * 2 ** 19) * 16, 3 * i, 3);
    const read = await decodeFlac(
      execFileSync('flac', ['-s', '-c', '-'], { input: Buffer.concat([headerOfTwentyBits(data.length), data]), stdio: ['pipe', 'pipe', 'inherit'] }),
    );
    expect([read.bits, read.samples.length]).toEqual([20, 0]);
  });

  /** WAVE_FORMAT_EXTENSIBLE: 20 valid bits in boxes of 24, mono, 44.1 kHz. */
  function headerOfTwentyBits(dataBytes: number): Buffer {
    const words = [0x46464952, 60 + dataBytes, 0x45564157, 0x20746d66, 40, 0x0001fffe, 44_100, 132_300, 0x00180003, 0x00140016, 4, 1];
    return Buffer.concat([Buffer.from(Uint32Array.from([...words, 0x00100000, 0xaa000080, 0x719b3800, 0x61746164, dataBytes]).buffer)]);
  }

  it('that is cut or damaged gives what stands before the damage and says so', async () => {
    const flac = await encodeFlac(ramp, 44100);
    const cut = await decodeFlac(flac.slice(0, flac.length - 100));
    expect(cut.damaged).toBe(true);
    expect([cut.samples.length, firstDifference(cut.samples, ramp.slice(0, 8192))]).toEqual([8192, null]);
    const hurt = flac.slice();
    hurt.fill(0, flac.length >> 1, (flac.length >> 1) + 40);
    const read = await decodeFlac(hurt);
    expect(read.damaged).toBe(true);
    expect(firstDifference(read.samples, ramp.slice(0, read.samples.length))).toBe(null);
    expect((await decodeFlac(Uint8Array.from([102, 76, 97, 67, 0, 0]))).sampleRateHz).toBe(0);
  });
});
