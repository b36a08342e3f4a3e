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

/**
 * For each stroke, by index, the strokes whose volume may be held against its own, itself among them: of the same drums and written as loud, also in what
 * sounds together with them. Strokes meant together are heard as one, so a hi-hat under an accented snare is as loud as that snare.
 */
export function writtenAlike(cycle: ExpectedCycle): readonly (readonly number[])[] {
  const { events } = eventsOf(cycle);
  const keys = events.map(({ strokes }) => strokes.map(writtenAs).sort().join('+'));
  const alike: (readonly number[])[] = [];
  for (const [k, { strokes }] of events.entries()) {
    const others = events.filter((_, at) => keys[at] === keys[k]).flatMap((event) => event.strokes);
    for (const own of strokes) alike[own.index] = others.filter((other) => writtenAs(other) === writtenAs(own)).map(({ index }) => index);
  }
  return alike;
}

const writtenAs = ({ surface, accent, ghost }: ExpectedStroke): string => `${surface}${accent ? '>' : ''}${ghost ? '()' : ''}`;
