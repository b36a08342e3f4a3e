/** When a stroke comes: a word, then the figures; the same in every table. */
import { audibleMs, timeWord } from '@evenhand/core/finding';
import type { Place } from '@evenhand/core/measurement';
import type { ReportStatement } from '@evenhand/core/words';

/** The median error of a place with its 95 % interval, ms; null where too few strokes were heard surely. */
export interface Comes {
  readonly biasMs: number | null;
  readonly lowMs: number | null;
  readonly highMs: number | null;
}

/** The same of a measured place. */
export const comesOf = ({ biasMs, biasLowMs, biasHighMs }: Pick<Place, 'biasMs' | 'biasLowMs' | 'biasHighMs'>): Comes => ({
  biasMs,
  lowMs: biasLowMs,
  highMs: biasHighMs,
});

/** @param spaceMs to the nearest neighbour of the stroke, which says what is heard there. */
export function comes({ biasMs, lowMs, highMs }: Comes, spaceMs: number): ReportStatement {
  if (biasMs === null || lowMs === null || highMs === null) return { code: 'report-cannot-tell', params: {} };
  const told = { biasMs, lowMs, highMs };
  return { code: 'report-comes', params: { word: timeWord(told, audibleMs(spaceMs)), ...told } };
}
