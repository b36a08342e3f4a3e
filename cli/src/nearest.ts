/** The known name that a mistyped one most likely meant. */

/**
 * @param given what was typed.
 * @param known names there are.
 * @returns the closest known name, or null when none is closer than half of what was typed.
 */
export function nearest(given: string, known: readonly string[]): string | null {
  const ranked = known
    .map((name) => ({ name, distance: editDistance(given.toLowerCase(), name.toLowerCase()) }))
    .sort((a, b) => a.distance - b.distance);
  const best = ranked[0];
  return best && best.distance <= Math.max(1, given.length / 2) ? best.name : null;
}

/** Letters to insert, delete or change to make one word from another (Levenshtein 1966). */
function editDistance(from: string, to: string): number {
  let row = Array.from({ length: to.length + 1 }, (_, j) => j);
  for (const [i, letter] of [...from].entries()) {
    const next = [i + 1];
    for (let j = 0; j < to.length; j++) next.push(Math.min(next[j]! + 1, row[j + 1]! + 1, row[j]! + (letter === to[j] ? 0 : 1)));
    row = next;
  }
  return row[to.length]!;
}
