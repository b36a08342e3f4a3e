/** Laws of practice against the worked numbers of FACTS.md 5. */
import { describe, expect, it } from 'vitest';
import { apexLaw, exponentialLaw, halfLifeCount, powerLaw, shareLeft } from './learningcurves.ts';

/** The published numbers have six decimals. */
const DECIMALS = 5;

describe('laws of practice (says: FACTS.md 5, Newell & Rosenbloom 1981, Heathcote et al. 2000)', () => {
  it.each([
    { count: 1, value: 100 },
    { count: 2, value: 81.22524 },
    { count: 10, value: 50.118723 },
    { count: 100, value: 25.118864 },
  ])('power 100·N^−.3 at $count: $value', ({ count, value }) => {
    expect(powerLaw(count, { start: 100, exponent: 0.3 })).toBeCloseTo(value, DECIMALS);
  });

  it.each([
    { exponent: 0.3, factor: 0.812252 },
    { exponent: 0.32, factor: 0.80107 },
    { exponent: 0.4, factor: 0.757858 },
  ])('doubling practice leaves $factor at α = $exponent', ({ exponent, factor }) => {
    expect(powerLaw(24, { start: 1, exponent }) / powerLaw(12, { start: 1, exponent })).toBeCloseTo(factor, DECIMALS);
  });

  it.each([
    { count: 0, value: 150 },
    { count: 5, value: 110.653066 },
    { count: 10, value: 86.787944 },
    { count: 20, value: 63.533528 },
  ])('exponential 50 + 100·e^−.1N at $count: $value', ({ count, value }) => {
    expect(exponentialLaw(count, { end: 50, span: 100, rate: 0.1 })).toBeCloseTo(value, DECIMALS);
  });

  it('its half-life at .1 is 6.931472', () => {
    expect(halfLifeCount(0.1)).toBeCloseTo(6.931472, DECIMALS);
  });

  it('both, A 50, B 100, α .05, β .2 at 10: 88.269497', () => {
    expect(apexLaw(10, { end: 50, span: 100, rate: 0.05, exponent: 0.2 })).toBeCloseTo(88.269497, DECIMALS);
  });
});

it('before anything is practised, all of a difficulty is there, and it only gets less (says: definition)', () => {
  for (const law of [
    { kind: 'exponential', rate: 0.01 },
    { kind: 'power', exponent: 0.3 },
    { kind: 'apex', rate: 0.01, exponent: 0.2 },
  ] as const) {
    const left = [0, 1, 10, 100, 1000].map((count) => shareLeft(count, law));
    expect(left[0]).toBeCloseTo(1, 12);
    for (const [i, share] of left.slice(1).entries()) expect(share).toBeLessThan(left[i]!);
  }
});
