/** What this player has done lately, kept and dropped, and what follows for the order. */
import { LATELY_DAYS, MENU } from './parameters.ts';

/** What is known of exercises, by id. */
export interface History {
  /** Kept by the player or the teacher: they come first. */
  readonly kept?: readonly string[];
  /** Dropped: they do not come. */
  readonly dropped?: readonly string[];
  /** Days since each was played last. */
  readonly done?: readonly { readonly id: string; readonly daysAgo: number }[];
}

/**
 * The order with what is known taken into account: kept first, dropped left out, what was done lately moved back by up to a dozen places, the
 * less the longer ago. Without any history the order as it was.
 * @param all in order. @param idOf their ids.
 */
export function withHistory<Each>(
  all: readonly Each[],
  idOf: (each: Each) => string,
  { kept = [], dropped = [], done = [] }: History,
): readonly Each[] {
  const ago = new Map<string, number>();
  for (const { id, daysAgo } of done) ago.set(id, Math.min(daysAgo, ago.get(id) ?? Number.POSITIVE_INFINITY));
  const places = all.map((each, at) => {
    const id = idOf(each);
    const back = MENU * Math.max(0, 1 - (ago.get(id) ?? LATELY_DAYS) / LATELY_DAYS);
    return { each, id, place: kept.includes(id) ? -1 : at + back };
  });
  return places
    .filter(({ id }) => !dropped.includes(id))
    .sort((a, b) => a.place - b.place)
    .map(({ each }) => each);
}
