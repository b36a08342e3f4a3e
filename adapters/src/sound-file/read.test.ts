/** One reader for every sound file: the same take, whatever the file it stands in. */
import { writeWav } from '@evenhand/core/take';
import { describe, expect, it } from 'vitest';
import { encodeFlac } from '../flac/index.ts';
import { readSoundFile } from './index.ts';

const SAMPLES = Float32Array.from({ length: 12_000 }, (_, i) => (Math.round(9000 * Math.sin(i / 11)) + 0) / 32768);

describe('a sound file', () => {
  it('gives the same take as WAV and as FLAC (says: arithmetic, both are lossless)', async () => {
    const wav = await readSoundFile(writeWav(SAMPLES, 44100, { bits: 16 }));
    const flac = await readSoundFile(await encodeFlac(SAMPLES, 44100));
    expect(flac).toEqual(wav);
    expect(flac).toEqual({
      value: { samples: SAMPLES, clock: { sampleRateHz: 44100, contextFrame0: 0, wallMs0: 0, latencySec: 0, latencyFrom: 'unknown' } },
      problems: [],
    });
  });

  it('that is a FLAC file cut short is read to the last whole frame, and says so', async () => {
    const flac = await encodeFlac(SAMPLES, 44100);
    const { value, problems } = await readSoundFile(flac.slice(0, flac.length - 50));
    expect(value!.samples.length).toBe(8192);
    expect(problems).toEqual([{ code: 'take-damaged', severity: 'doubtful', at: 8192 / 44100, params: { foundSec: 8192 / 44100 } }]);
  });

  it.each([
    { what: 'no bytes', bytes: [], code: 'take-empty' },
    { what: 'the beginning of a FLAC file', bytes: [0x66, 0x4c, 0x61, 0x43, 0, 0], code: 'take-not-audio' },
    { what: 'text', bytes: [0x52, 0x4c, 0x52, 0x4c], code: 'take-not-audio' },
  ])('of $what is refused as $code', async ({ bytes, code }) => {
    const { value, problems } = await readSoundFile(Uint8Array.from(bytes));
    expect([value, problems.map((problem) => problem.code)]).toEqual([null, [code]]);
  });

  it('without samples is empty', async () => {
    expect((await readSoundFile(await encodeFlac(new Float32Array(0), 44100))).problems[0]!.code).toBe('take-empty');
  });
});
