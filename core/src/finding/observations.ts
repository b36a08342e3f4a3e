/** What is written around a stroke: the room it has, and the strokes it is compared with. */
import type { ExpectedCycle, ExpectedStroke } from '../exercise/index.ts';
import { eventsOf, type Measurement } from '../measurement/index.ts';
import { msOfSec, secOfBeats } from '../units.ts';

/** Milliseconds to the nearest neighbour of each main stroke, by index, at the tempo heard. */
export function spacesMs({ trackedBpm }: Pick<Measurement, 'trackedBpm'>, cycle: ExpectedCycle): number[] {
  const spaces: number[] = [];
  for (const event of eventsOf(cycle).events) {
    for (const stroke of event.strokes) spaces[stroke.index] = msOfSec(secOfBeats(event.spaceBeats, trackedBpm));
  }
  return spaces;
}

/** Of one drum and written as loud. */
export const writtenAlike = (a: ExpectedStroke, b: ExpectedStroke): boolean =>
  a.surface === b.surface && a.accent === b.accent && a.ghost === b.ghost;
