import { expect, test } from 'vitest';
import { normal, seededRandom } from './random.ts';

test('the same seed gives the same numbers, another seed others', () => {
  const draw = (seed: number) => Array.from({ length: 5 }, seededRandom(seed));
  expect(draw(7)).toEqual(draw(7));
  expect(draw(7)).not.toEqual(draw(8));
});

test('uniform numbers have mean 1/2 and variance 1/12 (closed form; tolerance 5 standard errors of 20,000)', () => {
  const draws = Array.from({ length: 20_000 }, seededRandom(1));
  const mean = draws.reduce((a, b) => a + b) / draws.length;
  const variance = draws.reduce((a, b) => a + (b - mean) ** 2, 0) / draws.length;
  expect(Math.abs(mean - 0.5)).toBeLessThan(0.0103);
  expect(Math.abs(variance - 1 / 12)).toBeLessThan(0.0027);
  expect(draws.every((x) => x >= 0 && x < 1)).toBe(true);
});

test('normal numbers have mean 0 and variance 1 (closed form; tolerance 5 standard errors of 20,000)', () => {
  const random = seededRandom(2);
  const draws = Array.from({ length: 20_000 }, () => normal(random));
  const mean = draws.reduce((a, b) => a + b) / draws.length;
  const variance = draws.reduce((a, b) => a + (b - mean) ** 2, 0) / draws.length;
  expect(Math.abs(mean)).toBeLessThan(0.036);
  expect(Math.abs(variance - 1)).toBeLessThan(0.05);
});
