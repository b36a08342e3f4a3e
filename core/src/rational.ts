/** Exact fractions for musical time: plain data, so that they can be stored, hashed and sent between threads. */
import { ParameterError } from './errors.ts';

/** A fraction in lowest terms; the denominator is positive. */
export interface Rational {
  readonly num: number;
  readonly den: number;
}

export const ZERO: Rational = { num: 0, den: 1 };
export const ONE: Rational = { num: 1, den: 1 };

/** Greatest common divisor of two whole numbers, never negative. */
export function gcd(a: number, b: number): number {
  let [x, y] = [Math.abs(a), Math.abs(b)];
  while (y !== 0) [x, y] = [y, x % y];
  return x;
}

/** Least common multiple of two positive whole numbers. */
export const lcm = (a: number, b: number): number => (a / gcd(a, b)) * b;

/** `num / den` in lowest terms. Throws ParameterError unless both are safe whole numbers and `den` is not 0. */
export function rational(num: number, den = 1): Rational {
  if (!Number.isSafeInteger(num)) throw new ParameterError('num', num, 'a whole number');
  if (!Number.isSafeInteger(den) || den === 0) throw new ParameterError('den', den, 'a whole number other than 0');
  if (den === 1) return { num: num || 0, den };
  const shared = gcd(num, den) * Math.sign(den);
  return { num: num / shared || 0, den: den / shared };
}

export const add = (a: Rational, b: Rational): Rational => rational(a.num * b.den + b.num * a.den, a.den * b.den);
export const subtract = (a: Rational, b: Rational): Rational => rational(a.num * b.den - b.num * a.den, a.den * b.den);
export const multiply = (a: Rational, b: Rational): Rational => rational(a.num * b.num, a.den * b.den);
export const divide = (a: Rational, b: Rational): Rational => rational(a.num * b.den, a.den * b.num);

/** Negative when a < b, 0 when equal, positive when a > b. */
export const compare = (a: Rational, b: Rational): number => a.num * b.den - b.num * a.den;

/** The fraction as a floating-point number. */
export const toNumber = (a: Rational): number => a.num / a.den;
