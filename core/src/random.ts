/** Seeded chance, handed to whoever needs it: the core itself has no randomness. */

/** Uniform numbers in [0, 1). */
export type Random = () => number;

/**
 * A small seeded generator: the same seed gives the same numbers everywhere. Not for secrets.
 * @param seed any whole number; its lowest 32 bits count.
 * @source [Marsaglia2003] xorshift with the triple 13, 17, 5.
 */
export function seededRandom(seed: number): Random {
  let state = (Math.imul(seed, 0x9e3779b1) ^ 0x5bd1e995) >>> 0 || 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state = (state ^ (state << 5)) >>> 0;
    return (state - 1) / 4294967295;
  };
}

/** One standard normal number from two uniform ones (Box and Muller 1958). */
export function normal(random: Random): number {
  const radius = Math.sqrt(-2 * Math.log(1 - random()));
  return radius * Math.cos(2 * Math.PI * random());
}
