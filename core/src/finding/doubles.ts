/** Doubles of a cycle: two neighbouring strokes of one limb. */
import type { CycleEvent } from '../measurement/index.ts';
import type { Limb } from '../sticking/index.ts';

export interface Double {
  readonly first: number;
  readonly second: number;
  readonly limb: Limb;
}

/** How much longer than the shortest space a written gap may be and still be a double, as in measurement. Assumption. */
const DOUBLE_SPACE = 1.5;

/** In order of their first stroke; the last of the cycle may make one with the first of the next. */
export function doublesOf(events: readonly CycleEvent[], lengthBeats: number): Double[] {
  const shortest = Math.min(...events.map(({ spaceBeats }) => spaceBeats));
  return events.flatMap((event, place) => {
    const next = events[(place + 1) % events.length]!;
    const gapBeats = next.beat - event.beat + (place === events.length - 1 ? lengthBeats : 0);
    if (events.length < 2 || gapBeats > DOUBLE_SPACE * shortest) return [];
    return event.strokes.flatMap((a) =>
      next.strokes.flatMap((b) => (a.limb === b.limb && a.index !== b.index ? [{ first: a.index, second: b.index, limb: a.limb }] : [])),
    );
  });
}
