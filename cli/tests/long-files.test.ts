/** Long compressed files are decoded a piece at a time: what comes out is what the program that wrote them reads in one go. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { seededRandom } from '@evenhand/core/random';
import { readWav, takeOf, writeWav } from '@evenhand/core/take';
import { afterAll, expect, test } from 'vitest';
import { openBytes } from '../src/file-bytes.ts';
import { openByOurselves } from '../src/sound.ts';

const RATE_HZ = 44_100;
const DURATION_SEC = 45;
const folder = mkdtempSync(join(tmpdir(), 'evenhand-long-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Bursts that die away, now close and now far: encoders change between long and short blocks at every one. */
function writeSound(file: string): void {
  // With this seed a piece of the Ogg file begins with a long block before short ones, which was once taken for damage.
  const random = seededRandom(1);
  const samples = Float32Array.from({ length: DURATION_SEC * RATE_HZ }, () => 0.002 * (2 * random() - 1));
  for (let at = 0.1 * RATE_HZ; at < samples.length; at += Math.round((0.05 + 0.2 * random()) * RATE_HZ)) {
    for (let i = 0; i < 2000 && at + i < samples.length; i++) samples[at + i]! += 0.4 * (2 * random() - 1) * Math.exp(-i / 500);
  }
  writeFileSync(file, writeWav(samples, RATE_HZ, { bits: 16 }));
}

const isThere = (program: string): boolean => spawnSync(program, ['--version'], { stdio: 'ignore' }).error === undefined;

test.each([
  {
    name: 'Ogg Vorbis',
    says: 'oggdec',
    encode: ['oggenc', '-Q', '-q', '4', 'in.wav', '-o', 'made'],
    decode: ['oggdec', '-Q', '-o', 'out.wav', 'made'],
  },
  {
    name: 'MP3',
    says: 'LAME',
    encode: ['lame', '--quiet', '-b', '128', 'in.wav', 'made'],
    decode: ['lame', '--quiet', '--decode', 'made', 'out.wav'],
  },
])('a long $name file holds the samples that $says reads in it (says: $says)', async ({ encode, decode }) => {
  const missing = [encode[0]!, decode[0]!].find((program) => !isThere(program));
  if (missing) {
    process.stderr.write(`long-files.test.ts: left out, ${missing} is not installed\n`);
    expect(missing).toBeTypeOf('string');
    return;
  }
  writeSound(join(folder, 'in.wav'));
  for (const [program, ...given] of [encode, decode]) expect(spawnSync(program!, given, { cwd: folder }).status).toBe(0);
  const bytes = openBytes(join(folder, 'made')).value!;
  const { value: stream } = await openByOurselves(bytes);
  const { value: take, problems } = takeOf(stream!);
  bytes.close();
  const { value: whole } = readWav(readFileSync(join(folder, 'out.wav')));
  expect([problems, take!.samples.length]).toEqual([[], whole!.samples.length]);
  // Two roundings to sixteen bits, and decoders that add up in another order.
  const off = take!.samples.findIndex((value, i) => Math.abs(value - whole!.samples[i]!) > 3 / 32_768);
  expect(off).toBe(-1);
});
