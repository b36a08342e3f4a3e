import fc from 'fast-check';
import { expect, test } from 'vitest';
import { ParameterError } from './errors.ts';
import { add, compare, divide, gcd, lcm, multiply, rational, subtract, toNumber } from './rational.ts';

const fraction = fc.tuple(fc.integer({ min: -500, max: 500 }), fc.integer({ min: 1, max: 96 })).map(([num, den]) => rational(num, den));

test('fractions are kept in lowest terms with a positive denominator', () => {
  expect(rational(6, -8)).toEqual({ num: -3, den: 4 });
  expect(rational(0, -5)).toEqual({ num: 0, den: 1 });
});

test('the laws of a field hold', () => {
  fc.assert(
    fc.property(fraction, fraction, fraction, (a, b, c) => {
      expect(add(a, b)).toEqual(add(b, a));
      expect(multiply(a, add(b, c))).toEqual(add(multiply(a, b), multiply(a, c)));
      expect(subtract(add(a, b), b)).toEqual(a);
      if (b.num !== 0) expect(divide(multiply(a, b), b)).toEqual(a);
      expect(Math.sign(compare(a, b))).toBe(Math.sign(toNumber(a) - toNumber(b)));
    }),
  );
});

test.each([
  { says: 'FACTS.md 8: 3 or 6 over 16 meet after 48', a: 6, b: 16, expected: 48 },
  { says: 'FACTS.md 8: 5 over 16 meet after 80', a: 5, b: 16, expected: 80 },
  { says: 'FACTS.md 8: 7 over 16 meet after 112', a: 7, b: 16, expected: 112 },
  { says: 'FACTS.md 8: 8 over 12 meet after 24', a: 8, b: 12, expected: 24 },
])('$says', ({ a, b, expected }) => {
  expect(lcm(a, b)).toBe(expected);
  expect(gcd(a, b) * expected).toBe(a * b);
});

test('what is no fraction is the programmer’s mistake', () => {
  expect(() => rational(1, 0)).toThrow(ParameterError);
  expect(() => rational(0.5)).toThrow(ParameterError);
});
