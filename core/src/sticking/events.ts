/** A sticking event by event, with its rests and groups: what an engraver needs beyond the strokes. */
import { add, multiply, ONE, type Rational, rational } from '../rational.ts';
import { treeOf } from './read.ts';
import type { Sticking, WrittenStroke } from './sticking.ts';
import { type Part, strokeCountOf } from './tree.ts';

/** One event of a cycle. */
export interface StickingEvent {
  /** Onset in slots from the start of the cycle. */
  readonly slot: Rational;
  readonly lengthSlots: Rational;
  /** Main strokes that begin in it, both halves of a diddle; none for a rest. */
  readonly strokes: readonly WrittenStroke[];
  /** The group it stands in, or null. */
  readonly group: EventGroup | null;
}

/** Events evenly in the time of `slotCount` slots. */
export interface EventGroup {
  /** First slot of the group in the cycle. */
  readonly startSlot: number;
  readonly slotCount: number;
  readonly eventCount: number;
}

/** Every event of one cycle in order of time. */
export function eventsOf(sticking: Sticking): readonly StickingEvent[] {
  const { strokes } = sticking;
  let startSlot = 0;
  let first = 0;
  return treeOf(sticking).flatMap((part) => {
    const events = partEvents(part, startSlot).map((event, i) => {
      const count = strokeCountOf(part.events[i]!);
      first += count;
      return { ...event, strokes: strokes.slice(first - count, first) };
    });
    startSlot += part.slotCount;
    return events;
  });
}

function partEvents(part: Part, startSlot: number): readonly Omit<StickingEvent, 'strokes'>[] {
  if (part.kind === 'event') return [{ slot: rational(startSlot), lengthSlots: ONE, group: null }];
  const lengthSlots = rational(part.slotCount, part.events.length);
  const group = { startSlot, slotCount: part.slotCount, eventCount: part.events.length };
  return part.events.map((_, i) => ({ slot: add(rational(startSlot), multiply(lengthSlots, rational(i))), lengthSlots, group }));
}
