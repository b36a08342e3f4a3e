/** The first seconds of one take held against its last: what changes while it is played. */
import type { ExpectedCycle } from '../exercise/index.ts';
import { eventsOf, type Measurement, placesOf } from '../measurement/index.ts';
import { FIRST_LAST } from './parameters.ts';
import { type ReferenceTake, type ThenAndNow, thenAndNow } from './thenandnow.ts';

/**
 * Holds the first third of the cycles of a take against its last third.
 * @returns null when a third is too little to tell.
 */
export function firstAndLast(measurement: Measurement, cycle: ExpectedCycle): ThenAndNow | null {
  const cycles = [...new Set(measurement.strokes.map((stroke) => stroke.cycle))].sort((a, b) => a - b);
  const count = Math.floor(cycles.length * FIRST_LAST.share);
  if (count < FIRST_LAST.fewestCycles) return null;
  const [first, last] = [new Set(cycles.slice(0, count)), new Set(cycles.slice(-count))];
  const events = eventsOf(cycle);
  const drums = [...cycle.strokes].sort((a, b) => a.index - b.index).map(({ surface }) => surface);
  const partOf = (kept: ReadonlySet<number>): ReferenceTake => {
    const strokes = measurement.strokes.filter((stroke) => kept.has(stroke.cycle));
    return { day: '', measurement: { ...measurement, strokes, places: placesOf(strokes, events) }, drums, setup: {} };
  };
  return thenAndNow(partOf(first), partOf(last), 'seconds');
}
