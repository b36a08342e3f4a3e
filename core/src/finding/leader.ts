/** Of causes that cannot be told apart, the one that is named. */
import type { Case } from './case.ts';

/** What a teacher would think of first. Common practice, no source. */
const ORDER: readonly string[] = [
  ...['second-of-double', 'first-of-double', 'limb', 'place', 'grace', 'together', 'into-accent', 'out-of-accent', 'accent'],
  ...['after-move', 'after-limb', 'fill', 'bar-place', 'bounce', 'rushing', 'tiring'],
];

/** The named one first. Of two that mirror each other, the softer or the later is named, since a ring of drum and room makes louder strokes no fault. */
export function leaderFirst(cases: readonly Case[]): Case[] {
  const louder = ({ volume }: Case) => (volume !== null && volume.size > 0 ? 1 : 0);
  const rank = ({ explanation }: Case) => ORDER.indexOf(explanation.cause);
  return [...cases].sort((a, b) => louder(a) - louder(b) || rank(a) - rank(b) || a.explanation.indices.length - b.explanation.indices.length);
}
