/** Hands and feet as two voices, hands with stems up, where they play together; a line in which they only take turns stays one voice. */
import { add, rational } from '../rational.ts';
import { eventsOf, type Sticking, type WrittenStroke } from '../sticking/index.ts';
import type { Item, SheetStroke } from './items.ts';

/** A voice before it is written. */
export interface VoiceItems {
  readonly stem: 'up' | 'down';
  readonly items: readonly Item[];
}

const byFoot = ({ limb }: WrittenStroke): boolean => limb === 'K' || limb === 'H';
const isFoot = ({ stroke }: SheetStroke): boolean => byFoot(stroke);

/** One voice, or two where a foot and a hand ever play at once; common practice, no source: a line that goes through the limbs reads best on one stem. */
export function voicesOf(items: readonly Item[], sticking: Sticking): readonly VoiceItems[] {
  const together = eventsOf(sticking).some(({ strokes }) => strokes.some(byFoot) && !strokes.every(byFoot));
  if (!together) return [{ stem: 'up', items }];
  return [
    { stem: 'up', items: only(items, (stroke) => !isFoot(stroke)) },
    { stem: 'down', items: only(items, isFoot) },
  ];
}

/** The items with some of their strokes; a group in which none is left is plain rests. */
function only(items: readonly Item[], wanted: (stroke: SheetStroke) => boolean): readonly Item[] {
  const kept = items.map((item) => ({ ...item, strokes: item.strokes.filter(wanted) }));
  const sounding = new Set(kept.flatMap(({ group, strokes }) => (group && strokes.length > 0 ? [group.startSlot] : [])));
  return kept.flatMap((item) => {
    if (!item.group || sounding.has(item.group.startSlot)) return [item];
    return item.slot.den === 1 && item.slot.num === item.group.startSlot ? restsFor(item.group) : [];
  });
}

const restsFor = ({ startSlot, slotCount }: NonNullable<Item['group']>): readonly Item[] =>
  Array.from({ length: slotCount }, (_, i) => ({ slot: add(rational(startSlot), rational(i)), lengthSlots: rational(1), strokes: [], group: null }));
