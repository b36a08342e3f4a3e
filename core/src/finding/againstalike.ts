/** How loud a place is against those it should be like. */
import type { ExpectedCycle } from '../exercise/index.ts';
import type { Measurement } from '../measurement/index.ts';
import { median } from '../quantiles.ts';
import { writtenAlike } from './observations.ts';

/**
 * Mean volume of a place less the middle of the others that are written like it (`writtenAlike`), dB; below 0 is softer. An accent is held against
 * accents and a ghost against ghosts, so that what is written is no fault.
 * @param index of the main stroke.
 * @returns null when there is no other like it, or it was not heard.
 */
export function againstAlikeDb(index: number, { places }: Pick<Measurement, 'places'>, cycle: ExpectedCycle): number | null {
  const alike = writtenAlike(cycle)[index]!.filter((other) => other !== index);
  const levels = places.flatMap((place) => (alike.includes(place.index) && place.levelDb !== null ? [place.levelDb] : []));
  const levelDb = places.find((place) => place.index === index)?.levelDb ?? null;
  return levelDb === null || levels.length === 0 ? null : levelDb - median(levels);
}
