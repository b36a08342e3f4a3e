/** What a diary keeps of a measurement, as a measurement again. */
import type { SavedHeard } from '../diary/index.ts';
import type { MeasuredStroke, Measurement, Pair, Place } from '../measurement/index.ts';

/**
 * Places and pairs as they were heard. Single strokes are not kept, only how many there were of each place: they stand without times and volumes, so
 * that volumes are means without an interval and nothing of them is called sure.
 */
export function measurementOfHeard({ trackedBpm, offsetMs, places, pairs }: SavedHeard, tempoBpm: number): Measurement {
  const unknown = { playedSec: null, errorMs: null, levelDb: null, confidence: 0, expectedSec: 0, graces: [] };
  const strokes = (places as readonly Place[]).flatMap(({ index, limb, count }) =>
    Array.from({ length: count }, (_, cycle): MeasuredStroke => ({ ...unknown, cycle, index, limb, status: 'played' })),
  );
  return { tempoBpm, trackedBpm, offsetMs, grid: [], strokes, extra: [], places: places as readonly Place[], pairs: pairs as readonly Pair[] };
}
