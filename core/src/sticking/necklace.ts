/** Cycles of letters seen as loops: which are the same begun elsewhere, or with the hands swapped. */

/**
 * The alphabetically first of all rotations of a word: two words are the same loop exactly when this is equal.
 * @example leastRotation('RLRRLRLL') // 'LLRLRRLR'
 */
export function leastRotation(word: string): string {
  let least = word;
  for (let start = 1; start < word.length; start++) {
    const turned = word.slice(start) + word.slice(0, start);
    if (turned < least) least = turned;
  }
  return least;
}

/** All distinct rotations of a word, in the order of their starts. */
export const rotationsOf = (word: string): readonly string[] => [
  ...new Set(Array.from(word, (_, start) => word.slice(start) + word.slice(0, start))),
];

/** The word with R and L exchanged, other letters kept. */
export const swapHands = (word: string): string => Array.from(word, (letter) => (letter === 'R' ? 'L' : letter === 'L' ? 'R' : letter)).join('');

/** The first of a loop and its hand swap: equal exactly when two words are one loop up to start and hands. */
export function leastLoop(word: string): string {
  return [leastRotation(word), leastRotation(swapHands(word))].sort()[0]!;
}

/**
 * Every loop of `length` letters once, as its least rotation, in alphabetical order.
 * @param letters distinct letters in alphabetical order, e.g. 'LR' or 'HKLR'.
 * @param length 1 or more; the count grows as letters^length / length.
 * @source [OEIS] A000031 for two letters; the general count is (1/n) Σ_{d|n} φ(d) k^{n/d}.
 */
export const necklaces = (letters: string, length: number): readonly string[] => extend('', 1, { letters, length });

/** Words that can still become a least rotation: after a prefix with period p, the next letter may not be less than the one p before. */
function extend(prefix: string, period: number, whole: { readonly letters: string; readonly length: number }): readonly string[] {
  if (prefix.length === whole.length) return whole.length % period === 0 ? [prefix] : [];
  const before = prefix[prefix.length - period] ?? whole.letters[0]!;
  const allowed = Array.from(whole.letters).filter((letter) => letter >= before);
  return allowed.flatMap((letter) => extend(prefix + letter, letter === before ? period : prefix.length + 1, whole));
}

/**
 * Every loop of R and L once up to start and hand swap.
 * @source [OEIS] A000013
 */
export const loops = (length: number): readonly string[] => necklaces('LR', length).filter((word) => leastLoop(word) === word);

/** The longest run of one letter in a word repeated for ever; a word of one letter only runs for ever and gives Infinity; '' gives 0. */
export function longestCyclicRun(word: string): number {
  if (new Set(word).size < 2) return word === '' ? 0 : Number.POSITIVE_INFINITY;
  const runs = (word + word).match(/(.)\1*/g)!;
  return Math.max(...runs.map((run) => run.length));
}
