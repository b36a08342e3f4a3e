/** Holds the WAV reader and writer to the published header and to every usual way a file can differ or be damaged. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readWav, writeWav } from './index.ts';

const ascii = (text: string) => [...text].map((letter) => letter.charCodeAt(0));
const le = (value: number, width: number) => Array.from({ length: width }, (_, i) => Math.floor(value / 2 ** (8 * i)) % 256);
const chunk = (id: string, body: readonly number[], size = body.length) => [...ascii(id), ...le(size, 4), ...body, ...(body.length % 2 ? [0] : [])];
const format = (tag: number, { channels = 1, rate = 44100, bits = 16 } = {}) => [
  ...le(tag, 2),
  ...le(channels, 2),
  ...le(rate, 4),
  ...le((rate * channels * bits) / 8, 4),
  ...le((channels * bits) / 8, 2),
  ...le(bits, 2),
];
const wav = (...chunks: readonly (readonly number[])[]) => {
  const body = chunks.flat();
  return Uint8Array.from([...ascii('RIFF'), ...le(4 + body.length, 4), ...ascii('WAVE'), ...body]);
};
const bytesOf = (array: Float32Array | Float64Array | Int32Array | Int16Array) => [...new Uint8Array(array.buffer)];
const samplesOf = (bytes: Uint8Array) => [...(readWav(bytes).value?.samples ?? [])];

describe('writeWav', () => {
  const bytes = writeWav(new Float32Array(44100), 44100, { bits: 16 });
  const view = new DataView(bytes.buffer);
  it.each([
    { field: 'file length', value: bytes.length, expected: 88244 },
    { field: 'RIFF size', value: view.getUint32(4, true), expected: 88236 },
    { field: 'format size', value: view.getUint32(16, true), expected: 16 },
    { field: 'format tag', value: view.getUint16(20, true), expected: 1 },
    { field: 'byte rate', value: view.getUint32(28, true), expected: 88200 },
    { field: 'block align', value: view.getUint16(32, true), expected: 2 },
    { field: 'data size', value: view.getUint32(40, true), expected: 88200 },
  ])('one second of mono 16 bit at 44.1 kHz: $field is $expected (says FACTS.md 10)', ({ value, expected }) => expect(value).toBe(expected));

  it('pads an odd number of bytes by one that the data size does not count (says FACTS.md 10)', () => {
    const odd = writeWav(Float32Array.of(0.5), 44100, { bits: 24 });
    expect(odd.length).toBe(48);
    expect(new DataView(odd.buffer).getUint32(40, true)).toBe(3);
    expect(new DataView(odd.buffer).getUint32(4, true)).toBe(40);
  });

  it.each([
    { bits: 16, tolerance: 0.5 / 32768 },
    { bits: 24, tolerance: 0.5 / 8388608 },
    { bits: 'float32', tolerance: 0 },
  ] as const)('what is written in $bits bits reads back within half a step (closed form: rounding)', ({ bits, tolerance }) => {
    fc.assert(
      fc.property(fc.array(fc.float({ min: -1, max: Math.fround(0.9999), noNaN: true }), { minLength: 1, maxLength: 50 }), (values) => {
        const back = readWav(writeWav(Float32Array.from(values), 48000, { bits }));
        expect(back.problems).toEqual([]);
        values.forEach((value, i) => {
          expect(Math.abs(back.value!.samples[i]! - value)).toBeLessThanOrEqual(tolerance);
        });
      }),
    );
  });
});

describe('readWav takes', () => {
  it.each([
    { kind: '8 bit unsigned', body: [128, 255, 0], tag: 1, bits: 8, expected: [0, 127 / 128, -1] },
    { kind: '16 bit', body: bytesOf(Int16Array.of(0, 16384, -32768)), tag: 1, bits: 16, expected: [0, 0.5, -1] },
    { kind: '24 bit', body: [0, 0, 0x40, 0xff, 0xff, 0xff], tag: 1, bits: 24, expected: [0.5, -1 / 8388608] },
    { kind: '32 bit', body: bytesOf(Int32Array.of(2 ** 30, -(2 ** 31))), tag: 1, bits: 32, expected: [0.5, -1] },
    { kind: 'float 32', body: bytesOf(Float32Array.of(0.25, Number.NaN, Number.POSITIVE_INFINITY)), tag: 3, bits: 32, expected: [0.25, 0, 0] },
    { kind: 'float 64', body: bytesOf(Float64Array.of(-0.75, 1e300)), tag: 3, bits: 64, expected: [-0.75, 0] },
    { kind: 'mu-law (G.711: 0x80 is 32124, 0xFF is 0)', body: [0x80, 0xff], tag: 7, bits: 8, expected: [32124 / 32768, 0] },
    { kind: 'A-law (G.711: 0xAA is 32256, 0xD5 is 8)', body: [0xaa, 0xd5], tag: 6, bits: 8, expected: [32256 / 32768, 8 / 32768] },
  ])('$kind', ({ body, tag, bits, expected }) => {
    const read = samplesOf(wav(chunk('fmt ', format(tag, { bits })), chunk('data', body)));
    expect(read).toEqual(expected.map(Math.fround));
  });

  it('WAVE_FORMAT_EXTENSIBLE, whose sub-format begins with the tag', () => {
    const extensible = [...format(0xfffe, { bits: 32 }), ...le(22, 2), ...le(32, 2), ...le(4, 4), ...le(3, 2), ...new Array<number>(14).fill(0)];
    expect(samplesOf(wav(chunk('fmt ', extensible), chunk('data', bytesOf(Float32Array.of(0.5)))))).toEqual([0.5]);
  });

  it('unknown chunks before the data, odd ones padded (says FACTS.md 10)', () => {
    const bytes = wav(chunk('LIST', [1, 2, 3]), chunk('fmt ', format(1)), chunk('bext', [7]), chunk('data', bytesOf(Int16Array.of(8192))));
    expect(samplesOf(bytes)).toEqual([0.25]);
  });

  it('several channels as their mean, and the stronger one where they cancel', () => {
    const stereo = (pairs: number[]) => wav(chunk('fmt ', format(1, { channels: 2 })), chunk('data', bytesOf(Int16Array.from(pairs))));
    expect(samplesOf(stereo([16384, 8192]))).toEqual([0.375]);
    expect(samplesOf(stereo([16384, -16384, -8192, 8192]))).toEqual([0.5, -0.25]);
  });

  it.each([0, 0xffffffff])('a data size of %i, as streaming recorders leave it, to the end of the file', (size) => {
    const read = readWav(wav(chunk('fmt ', format(1)), chunk('data', bytesOf(Int16Array.of(8192, 16384)), size)));
    expect([...read.value!.samples]).toEqual([0.25, 0.5]);
    expect(read.problems).toEqual([]);
  });

  it('a file cut short, and says so', () => {
    const whole = writeWav(new Float32Array(44100).fill(0.1), 44100, { bits: 16 });
    const read = readWav(whole.subarray(0, 44 + 22050));
    expect(read.value?.samples.length).toBe(11025);
    expect(read.problems).toEqual([{ code: 'take-cut-short', severity: 'doubtful', at: 0.25, params: { expectedSec: 1, foundSec: 0.25 } }]);
  });
});

describe('readWav refuses', () => {
  it.each([
    { what: 'text', bytes: ascii('this is my practice diary'), looksLike: 'text' },
    { what: 'MP3', bytes: ascii('ID3\x03'), looksLike: 'an MP3 file' },
    { what: 'FLAC', bytes: ascii('fLaC'), looksLike: 'a FLAC file' },
    { what: 'Ogg', bytes: ascii('OggS'), looksLike: 'an Ogg file' },
    { what: 'M4A', bytes: [0, 0, 0, 32, ...ascii('ftypM4A ')], looksLike: 'an M4A or MP4 file' },
    { what: 'PNG', bytes: [0x89, ...ascii('PNG\r\n')], looksLike: 'a PNG picture' },
    { what: 'ZIP', bytes: ascii('PK\x03\x04'), looksLike: 'a ZIP archive' },
    { what: 'PDF', bytes: ascii('%PDF-1.7'), looksLike: 'a PDF document' },
  ])('$what called .wav, and says what it looks like', ({ bytes, looksLike }) => {
    expect(readWav(Uint8Array.from(bytes))).toEqual({
      value: null,
      problems: [{ code: 'take-not-audio', severity: 'refused', params: { looksLike } }],
    });
  });
  it('an empty file, and a header without samples', () => {
    expect(readWav(new Uint8Array(0)).problems[0]?.code).toBe('take-empty');
    expect(readWav(wav(chunk('fmt ', format(1)), chunk('data', []))).problems[0]?.code).toBe('take-empty');
  });
  it('an encoding it does not know, by name', () => {
    expect(readWav(wav(chunk('fmt ', format(17, { bits: 4 })), chunk('data', [1, 2]))).problems).toEqual([
      { code: 'take-unsupported', severity: 'refused', params: { encoding: 'IMA ADPCM' } },
    ]);
  });
});

describe('readWav never throws', () => {
  const honest = (read: ReturnType<typeof readWav>): void => {
    expect(read.value === null).toBe(read.problems.some(({ severity }) => severity === 'refused'));
  };
  it('on random bytes', () => {
    fc.assert(fc.property(fc.uint8Array({ maxLength: 200 }), (bytes) => honest(readWav(bytes))));
  });
  it('on a good file with bytes changed or cut', () => {
    const good = writeWav(Float32Array.from({ length: 30 }, Math.sin), 44100, { bits: 24 });
    const damage = fc.array(fc.tuple(fc.nat({ max: good.length - 1 }), fc.nat({ max: 255 })), { maxLength: 6 });
    fc.assert(
      fc.property(damage, fc.nat({ max: good.length }), (changes, length) => {
        const bytes = good.slice();
        for (const [at, value] of changes) bytes[at] = value;
        honest(readWav(bytes.subarray(0, length)));
      }),
      { numRuns: 1000 },
    );
  });
});
