/** FLAC decoded here is, sample by sample, what the independent encoder `flac` was given. */
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { seededRandom } from '@evenhand/core/random';
import { describe, expect, test } from 'vitest';
import { decodeFlac, isFlac } from '../src/flac.ts';
import { folder } from './evenhand.ts';

const missing = spawnSync('flac', ['--version']).error !== undefined;
if (missing) console.log('skipped: decoding FLAC sample by sample, because the program flac is not installed');

/** Whole numbers that are hard on a decoder: the ends of the range, runs of zeros and of −1, slow waves, noise. */
function hardNumbers(bits: number): number[] {
  const random = seededRandom(bits);
  const full = 2 ** (bits - 1);
  const edges = [0, -1, 1, -full, full - 1, 255, 256, -256, -255, -257, 127, -128].map((value) => Math.max(-full, Math.min(full - 1, value)));
  const edgy = Array.from({ length: 6000 }, () => edges[Math.floor(random() * edges.length)]!);
  const runs = Array.from({ length: 3000 }, (_, i) => (i % 700 < 350 ? 0 : -1));
  const noise = Array.from({ length: 6000 }, () => Math.floor((2 * random() - 1) * full));
  const wave = Array.from({ length: 6000 }, (_, i) => Math.round(full * 0.9 * Math.sin(i / 50)) + 0);
  return [...edgy, ...runs, ...noise, ...wave];
}

/** Raw little-endian samples, encoded by `flac`. */
function encode(raw: Uint8Array, { bits, channels }: { bits: number; channels: number }): Uint8Array {
  const home = folder();
  writeFileSync(join(home, 'take.raw'), raw);
  const format = ['--endian=little', '--sign=signed', `--channels=${channels}`, `--bps=${bits}`, '--sample-rate=48000'];
  expect(spawnSync('flac', ['--silent', '--force-raw-format', ...format, 'take.raw'], { cwd: home }).status).toBe(0);
  return readFileSync(join(home, 'take.flac'));
}

function rawOf(numbers: readonly number[], bits: number): Uint8Array {
  const raw = new Uint8Array((numbers.length * bits) / 8);
  for (const [i, value] of numbers.entries()) {
    for (let byte = 0; byte < bits / 8; byte++) raw[(i * bits) / 8 + byte] = (value >> (8 * byte)) & 255;
  }
  return raw;
}

describe.skipIf(missing)('decoding what flac 1.x encoded', () => {
  test.each([8, 16, 24])('%i bits, one channel: the same numbers', async (bits) => {
    const numbers = hardNumbers(bits);
    const bytes = encode(rawOf(numbers, bits), { bits, channels: 1 });
    expect(isFlac(bytes)).toBe(true);
    const decoded = await decodeFlac(bytes);
    expect(decoded).toMatchObject({ sampleRateHz: 48000, bits, damaged: false });
    expect(decoded.samples).toEqual(Float32Array.from(numbers, (value) => value / 2 ** (bits - 1)));
  });

  test.each([16, 24])('%i bits, three channels: their mean', async (bits) => {
    const numbers = hardNumbers(bits);
    const decoded = await decodeFlac(encode(rawOf(numbers, bits), { bits, channels: 3 }));
    const means = Float32Array.from(
      { length: numbers.length / 3 },
      (_, i) => (numbers[3 * i]! + numbers[3 * i + 1]! + numbers[3 * i + 2]!) / 3 / 2 ** (bits - 1),
    );
    expect(decoded.samples).toHaveLength(means.length);
    // Single precision rounds a sum of three at most a few units in the last place.
    for (const [i, sample] of decoded.samples.entries()) expect(Math.abs(sample - means[i]!)).toBeLessThan(3e-7);
  });

  test('a damaged byte is told', async () => {
    const bytes = encode(rawOf(hardNumbers(16), 16), { bits: 16, channels: 1 });
    bytes[bytes.length >> 1]! ^= 255;
    expect((await decodeFlac(bytes)).damaged).toBe(true);
  });
});

test.each([
  { says: 'nothing', bytes: [] },
  { says: 'only the first four bytes', bytes: [0x66, 0x4c, 0x61, 0x43] },
  { says: 'rubbish after them', bytes: [0x66, 0x4c, 0x61, 0x43, ...Array.from({ length: 500 }, (_, i) => (i * 37) & 255)] },
])('$says gives no samples and does not throw', async ({ bytes }) => {
  expect(await decodeFlac(Uint8Array.from(bytes))).toMatchObject({ damaged: true, samples: new Float32Array(0) });
});
