/** The events of an exercise cycle after cycle, and the beats they stand in. */
import { type ExerciseContent, stickingOfContent } from '../exercise/index.ts';
import { type Drum, drumsOf } from '../kit/index.ts';
import { add, type Rational, rational } from '../rational.ts';
import { type EventGroup, eventsOf, type StickingEvent, type WrittenStroke } from '../sticking/index.ts';

/** A main stroke in its cycle. */
export interface SheetStroke {
  readonly cycle: number;
  readonly stroke: WrittenStroke;
  readonly drum: Drum;
}

/** An event of some cycle, placed in slots from the start of the bar. */
export interface Item {
  readonly slot: Rational;
  readonly lengthSlots: Rational;
  readonly strokes: readonly SheetStroke[];
  readonly group: EventGroup | null;
}

/** The same event so many slots later. */
export const shift = (item: Item, slots: number): Item => ({
  ...item,
  slot: add(item.slot, rational(slots)),
  group: item.group && { ...item.group, startSlot: item.group.startSlot + slots },
});

/** Every event from the first cycle on, until at least `slots` are filled, in slots from the start. */
export function itemsUntil(content: ExerciseContent, slots: number): readonly Item[] {
  const sticking = stickingOfContent(content);
  const cycles = Math.ceil(slots / sticking.slotCount);
  const events = eventsOf(sticking).flatMap(unpackSingle);
  const drums = drumsOf(content.surfaces);
  return Array.from({ length: cycles }, (_, cycle) => cycle).flatMap((cycle) => {
    const placed = events.map(({ strokes, ...event }) => ({
      ...event,
      strokes: strokes.map((stroke) => ({ cycle, stroke, drum: drums.get(content.surfaces[stroke.index]!)! })),
    }));
    return placed.map((item) => shift(item, cycle * sticking.slotCount));
  });
}

/** A group of one event is that event and rests. */
function unpackSingle(event: StickingEvent): readonly StickingEvent[] {
  if (event.group?.eventCount !== 1) return [event];
  const one = rational(1);
  return Array.from({ length: event.group.slotCount }, (_, i) => ({
    slot: add(event.slot, rational(i)),
    lengthSlots: one,
    strokes: i === 0 ? event.strokes : [],
    group: null,
  }));
}

/** Beats that stand under one beam and one bracket: usually one, more where a group reaches over a beat. */
export interface Span {
  readonly firstBeat: number;
  readonly beats: number;
  readonly items: readonly Item[];
}

/** Whether nothing sounds in a span. */
export const isSilent = (span: Span): boolean => span.items.every(({ strokes, group }) => strokes.length === 0 && group === null);
