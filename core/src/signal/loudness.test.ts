/** Loudness against the values published for it. */
import { describe, expect, test } from 'vitest';
import { biquadAt } from './biquad.ts';
import { loudnessLkfs } from './loudness.ts';
import { HEAD_SHELF, LOUDNESS_RATE_HZ, LOW_CUT } from './parameters.ts';

/** Tones of 1 kHz one after another, peaks in dBFS. */
function tones(rateHz: number, parts: readonly (readonly [seconds: number, dbfs: number])[], hz = 1000): Float64Array {
  const counts = parts.map(([seconds]) => Math.round(seconds * rateHz));
  const out = new Float64Array(counts.reduce((sum, count) => sum + count, 0));
  let at = 0;
  for (const [k, [, dbfs]] of parts.entries()) {
    const peak = 10 ** (dbfs / 20);
    for (let i = 0; i < counts[k]!; i++, at++) out[at] = peak * Math.sin((2 * Math.PI * hz * at) / rateHz);
  }
  return out;
}

/** What EBU Tech 3341 asks of a meter: the same tone left and right, integrated loudness within .1 LU. */
const ebu = [
  { says: 'EBU Tech 3341 case 1', parts: [[20, -23]], lufs: -23 },
  { says: 'EBU Tech 3341 case 2', parts: [[20, -33]], lufs: -33 },
  {
    says: 'EBU Tech 3341 case 3',
    parts: [
      [10, -36],
      [60, -23],
      [10, -36],
    ],
    lufs: -23,
  },
  {
    says: 'EBU Tech 3341 case 4',
    parts: [
      [10, -72],
      [10, -36],
      [60, -23],
      [10, -36],
      [10, -72],
    ],
    lufs: -23,
  },
  {
    says: 'EBU Tech 3341 case 5',
    parts: [
      [20, -26],
      [20.1, -20],
      [20, -26],
    ],
    lufs: -23,
  },
] as const;

describe('loudness', () => {
  for (const { says, parts, lufs } of ebu) {
    // The filters follow the rate, so two rates are asked of the first two cases; the gates do not, so one will do for the others.
    for (const rateHz of parts.length === 1 ? [48_000, 44_100] : [48_000]) {
      test(`${lufs} LUFS at ${rateHz} Hz (says: ${says})`, () => {
        const tone = tones(rateHz, parts);
        expect(Math.abs(loudnessLkfs([tone, tone], rateHz)! - lufs)).toBeLessThan(0.1);
      });
    }
  }

  for (const rateHz of [44_100, 48_000, 96_000]) {
    test(`a full-scale sine of 997 Hz in one channel is −3.01 LKFS at ${rateHz} Hz (says: ITU-R BS.1770-4 annex 1)`, () => {
      // The value is given to two places; .002 more for the tone that begins.
      expect(Math.abs(loudnessLkfs([tones(rateHz, [[2, 0]], 997)], rateHz)! + 3.01)).toBeLessThan(0.012);
    });
  }

  test('a channel of silence changes nothing, and one that is the same adds 3.01 LU (arithmetic: powers add, 10·log10 2)', () => {
    const tone = tones(48_000, [[1, -20]]);
    const alone = loudnessLkfs([tone], 48_000)!;
    expect(loudnessLkfs([tone, new Float64Array(tone.length)], 48_000)).toBeCloseTo(alone, 9);
    expect(loudnessLkfs([tone, tone], 48_000)! - alone).toBeCloseTo(10 * Math.log10(2), 9);
  });

  test('what is shorter than a block, or silent, has no loudness (says: ITU-R BS.1770-4 annex 1, the gates)', () => {
    expect(loudnessLkfs([tones(48_000, [[0.39, -20]])], 48_000)).toBeNull();
    expect(loudnessLkfs([new Float64Array(48_000)], 48_000)).toBeNull();
    expect(loudnessLkfs([tones(48_000, [[1, -80]])], 48_000)).toBeNull();
  });

  for (const [name, filter] of [
    ['shelf', HEAD_SHELF],
    ['low cut', LOW_CUT],
  ] as const) {
    test(`the ${name} answers the same at 44.1 and 96 kHz as at 48 (says: ITU-R BS.1770-4 annex 1, "the same frequency response")`, () => {
      // Within .1 dB up to 10 kHz: nearer to half the rate the bilinear transform bends the axis.
      for (const hz of [30, 60, 200, 1000, 2000, 4000, 8000, 10_000]) {
        const published = answerDb(filter, hz, LOUDNESS_RATE_HZ);
        expect(Math.abs(answerDb(biquadAt(filter, LOUDNESS_RATE_HZ, 96_000), hz, 96_000) - published)).toBeLessThan(0.1);
        expect(Math.abs(answerDb(biquadAt(filter, LOUDNESS_RATE_HZ, 44_100), hz, 44_100) - published)).toBeLessThan(0.1);
      }
    });
  }
});

/** Response of a filter at a frequency, dB. */
function answerDb({ b, a }: typeof HEAD_SHELF, hz: number, rateHz: number): number {
  const w = (2 * Math.PI * hz) / rateHz;
  const size = ([x, y, z]: readonly [number, number, number]) =>
    Math.hypot(x + y * Math.cos(w) + z * Math.cos(2 * w), y * Math.sin(w) + z * Math.sin(2 * w));
  return 20 * Math.log10(size(b) / size(a));
}
