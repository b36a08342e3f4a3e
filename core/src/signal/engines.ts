/** JavaScript engines differ in the last bits of sine, exponential and power; what is rounded here is the same in all of them. */

const STEPS = 2 ** 32;

/**
 * A value of about 1, rounded so coarsely that engines seldom fall to different sides (one in a million values), and so finely that it is 190 dB below
 * what is heard. Sums, products, quotients and roots need no such care: the standard says their every bit.
 */
export const sameInEngines = (value: number): number => Math.round(value * STEPS) / STEPS;
