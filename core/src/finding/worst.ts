/** The place that stands furthest out in time. */
import type { Measurement } from '../measurement/index.ts';

/** Main stroke whose bias is the largest, early or late; of places heard without certainty the bias is drawn towards the grid already. Null when nothing was heard. */
export function worstPlace({ places }: Pick<Measurement, 'places'>): number | null {
  const known = places.filter(({ biasMs }) => biasMs !== null);
  const [worst] = [...known].sort((a, b) => Math.abs(b.biasMs!) - Math.abs(a.biasMs!));
  return worst?.index ?? null;
}
