/** Holds the signal stage to closed forms. */
import { describe, expect, it } from 'vitest';
import {
  autocorrelation,
  bandPowers,
  createBandBank,
  decimate,
  foretellErrors,
  levinsonDurbin,
  localMaxima,
  parabolaPeak,
  predictionError,
} from './index.ts';

describe('parabola through three values', () => {
  it.each([
    { values: [0.5, 1, 0.8], offset: 0.2142857, height: 1.0160714, says: 'FACTS.md 3' },
    { values: [2, 5, 4], offset: 0.25, height: 5.125, says: 'FACTS.md 3' },
    { values: [1, 1, 1], offset: 0, height: 1, says: 'arithmetic: a flat top has its peak in the middle' },
  ])('$values peaks at $offset, $height (says $says)', ({ values, offset, height }) => {
    const peak = parabolaPeak(values[0]!, values[1]!, values[2]!);
    expect(peak.offset).toBeCloseTo(offset, 7);
    expect(peak.height).toBeCloseTo(height, 7);
  });
});

describe('local maxima', () => {
  it('keeps the first of equals and nothing below the floor (arithmetic)', () => {
    expect(localMaxima([0, 3, 3, 0, 1, 0, 5, 0], 2, 2)).toEqual([1, 6]);
  });
});

describe('linear prediction', () => {
  it('recovers the filter of a resonance driven once (closed form: x[n] = 1.6 x[n−1] − 0.9 x[n−2])', () => {
    const x = new Float64Array(400);
    x[0] = 1;
    for (let n = 1; n < x.length; n++) x[n] = 1.6 * x[n - 1]! - 0.9 * (x[n - 2] ?? 0);
    const a = levinsonDurbin(autocorrelation(x, 2));
    expect(a[1]).toBeCloseTo(-1.6, 6);
    expect(a[2]).toBeCloseTo(0.9, 6);
    const error = new Float64Array(20);
    predictionError(x, a, { from: 10, to: 30, out: error });
    // Nothing new comes in after the first sample, so the error is rounding alone.
    expect(Math.max(...error.map(Math.abs))).toBeLessThan(1e-5);
  });
  it('leaves silence as it is', () => expect([...levinsonDurbin(new Float64Array(4))]).toEqual([1, 0, 0, 0]));
});

describe('band powers', () => {
  it.each([44100, 48000, 8000, 192000])('of a full-scale sine are ½ in all, in the band of its frequency, at %i Hz (Parseval)', (sampleRateHz) => {
    const bank = createBandBank({ sampleRateHz, windowSecs: [0.0116], lowHz: 60, highHz: 16000, bandCount: 30 });
    const samples = Float32Array.from({ length: sampleRateHz / 10 }, (_, i) => Math.sin((2 * Math.PI * 1000 * i) / sampleRateHz));
    const out = new Float32Array(30);
    bandPowers(bank, samples, { centre: samples.length / 2, out, outOffset: 0 });
    const loudest = out.indexOf(Math.max(...out));
    expect(Math.abs(Math.log2(bank.centresHz[loudest]! / 1000))).toBeLessThan(0.3);
    // Bands narrower than a bin share it, so the sum may exceed ½ a little: the sine's leakage into shared low bins is under 2 %.
    expect(out.reduce((sum, v) => sum + v, 0)).toBeGreaterThan(0.49);
    expect(out.reduce((sum, v) => sum + v, 0)).toBeLessThan(0.56);
  });
});

describe('what is foretold', () => {
  const spec = { order: 10, learnCount: 60, gapCount: 1, ridge: 1e-9 };
  const ring = Float64Array.from({ length: 300 }, (_, n) => 0.99 ** n * Math.cos(1.3 * n) + 0.5 * 0.98 ** n * Math.cos(0.4 * n + 1));

  it('two tones that die away, to a thousandth of what they are (four coefficients foretell them exactly, arithmetic)', () => {
    const errors = foretellErrors(ring, spec);
    for (let n = 80; n < 300; n++) expect(Math.abs(errors[n]!)).toBeLessThan(1e-3 * 0.99 ** n);
  });
  it('a blow a hundredth as loud as the ring is not: the error is the blow (arithmetic)', () => {
    const struck = Float64Array.from(ring, (v, n) => v + (n === 120 ? 0.01 : 0));
    // What is foretold of this sample is a thousandth of 0.3 off at most, see above.
    expect(foretellErrors(struck, spec)[120]).toBeCloseTo(0.01, 3);
  });
  it('silence: no error at all', () => {
    expect(foretellErrors(new Float64Array(50), spec)).toEqual(new Float64Array(50));
  });
});

describe('a low-passed copy', () => {
  it.each([
    { hz: 100, gain: 1, says: 'far under the cut' },
    { hz: 350, gain: 0.5, says: 'at the cut, half' },
    { hz: 900, gain: 0, says: 'far over it' },
  ])('keeps $gain of $hz Hz ($says: a windowed sinc)', ({ hz, gain }) => {
    const samples = Float32Array.from({ length: 22050 }, (_, i) => Math.sin((2 * Math.PI * hz * i) / 44100));
    const copy = decimate(samples, 500, { sampleRateHz: 44100, step: 44, cutHz: 350, reachSteps: 4 });
    const middle = copy.subarray(20, 480);
    const rms = Math.sqrt(middle.reduce((sum, v) => sum + v * v, 0) / middle.length);
    // Half a filter of 8 ms falls off over some 250 Hz; a twentieth is the ripple of a Hann window so short.
    expect(Math.abs(rms * Math.SQRT2 - gain)).toBeLessThan(0.05);
  });
});
