/** The events of an exercise cycle after cycle, and the beats they stand in. */
import type { ExerciseContent } from '../exercise/index.ts';
import { type Drum, drumsOf } from '../kit/index.ts';
import { add, divide, type Rational, rational, toNumber } from '../rational.ts';
import { type EventGroup, eventsOf, type Sticking, type StickingEvent, type WrittenStroke } from '../sticking/index.ts';

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
  /** It sounded before the bar line already. */
  readonly continued?: boolean;
  /** It sounds on over the bar line. */
  readonly tied?: boolean;
}

/** The same event so many slots later. */
export const shift = (item: Item, slots: number): Item => ({
  ...item,
  slot: add(item.slot, rational(slots)),
  group: item.group && { ...item.group, startSlot: item.group.startSlot + slots },
});

/** Every event from the first cycle on that begins within `slots`, with the rest of a group that does, in slots from the start. */
export function itemsUntil({ surfaces }: ExerciseContent, sticking: Sticking, slots: number): readonly Item[] {
  const cycles = Math.ceil(slots / sticking.slotCount);
  const events = eventsOf(sticking);
  const drums = drumsOf(surfaces);
  return Array.from({ length: cycles }, (_, cycle) => cycle).flatMap((cycle) => {
    const within = ({ slot, group }: StickingEvent) => cycle * sticking.slotCount + (group?.startSlot ?? toNumber(slot)) < slots;
    const placed = events.filter(within).map(({ strokes, ...event }) => ({
      ...event,
      strokes: strokes.map((stroke) => ({ cycle, stroke, drum: drums.get(surfaces[stroke.index]!)! })),
    }));
    return placed.flatMap(unpackSingle).map((item) => shift(item, cycle * sticking.slotCount));
  });
}

/** A group of one event is that event and rests; a diddle in it is two strokes. */
function unpackSingle(item: Item): readonly Item[] {
  if (item.group?.eventCount !== 1) return [item];
  const { slotCount } = item.group;
  const group = { ...item.group, eventCount: 2 };
  if (slotCount > 1 && isDiddle(item)) return halves(item).map((half) => ({ ...half, group }));
  const one = rational(1);
  return Array.from({ length: slotCount }, (_, i) => ({
    slot: add(item.slot, rational(i)),
    lengthSlots: one,
    strokes: i === 0 ? item.strokes : [],
    group: null,
  }));
}

/** Whether a stroke of this event is played twice in its time. */
export const isDiddle = ({ strokes }: Item): boolean => strokes.some(({ stroke }) => stroke.diddle !== null);

/** A diddle as its two strokes: what a slash through the stem would say of a value that is not written. */
export function halves(item: Item): readonly Item[] {
  if (!isDiddle(item)) return [item];
  const lengthSlots = divide(item.lengthSlots, rational(2));
  const strokesOf = (second: boolean) =>
    item.strokes
      .filter(({ stroke }) => (stroke.diddle === 'second') === second)
      .map((each) => ({ ...each, stroke: { ...each.stroke, diddle: null } }));
  return [
    { ...item, lengthSlots, strokes: strokesOf(false) },
    { ...item, slot: add(item.slot, lengthSlots), lengthSlots, strokes: strokesOf(true) },
  ];
}

/** Beats that stand under one beam and one bracket: usually one, more where a group reaches over a beat. */
export interface Span {
  readonly firstBeat: number;
  readonly beats: number;
  readonly items: readonly Item[];
}

/** Whether nothing sounds in a span. */
export const isSilent = (span: Span): boolean => span.items.every(({ strokes, group }) => strokes.length === 0 && group === null);
