/** What the ear says of the drum of each place: a kick or not, which is all it can tell; a hint beside what the drummer wrote. */
import type { MeasuredStroke } from '@evenhand/core/measurement';
import type { Stroke } from '@evenhand/core/stroke';

export type DrumHint = 'kick' | 'notKick' | 'mixed';

/** A heard stroke is that of a place when it lies no further from it, seconds: both times are the ear's own. Assumption: one sample apart at most, mostly none. */
const SAME_SEC = 0.001;
/** Fewest strokes that a hint rests on, and the share of them that must agree. Assumption; of kicks 2 in 100 are called otherwise, of others 3 (docs/ear.md). */
const FEWEST = 4;
const AGREED = 0.8;

/**
 * @param expected strokes of a take, of any status.
 * @param heard strokes of the same take.
 * @returns a hint for each place (index of a main stroke) of which enough strokes were heard; places without are left out.
 */
export function drumHints(expected: readonly MeasuredStroke[], heard: readonly Stroke[]): ReadonlyMap<number, DrumHint> {
  const byTime = [...heard].sort((a, b) => a.timeSec - b.timeSec);
  const kicks = new Map<number, boolean[]>();
  for (const { index, playedSec } of expected) {
    const stroke = playedSec === null ? undefined : byTime.find(({ timeSec }) => Math.abs(timeSec - playedSec) <= SAME_SEC);
    if (stroke) kicks.set(index, [...(kicks.get(index) ?? []), stroke.drum === 'kick']);
  }
  return new Map([...kicks].filter(([, told]) => told.length >= FEWEST).map(([index, told]) => [index, hintOf(told)]));
}

function hintOf(told: readonly boolean[]): DrumHint {
  const kicks = told.filter(Boolean).length;
  if (kicks >= AGREED * told.length) return 'kick';
  return told.length - kicks >= AGREED * told.length ? 'notKick' : 'mixed';
}
