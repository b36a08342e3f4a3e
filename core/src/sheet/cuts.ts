/** Groups that a bar line cuts: each part on a grid of its own, so that every bar holds its time, and what sounds over the line is tied. */
import { add, compare, gcd, lcm, multiply, type Rational, rational, subtract } from '../rational.ts';
import type { EventGroup } from '../sticking/index.ts';
import { halves, type Item, type SheetStroke } from './items.ts';

/**
 * The same items with every group that crosses a bar line written as one group per bar.
 * @param items in order of time, in slots from the start of the first bar.
 */
export function cutAtBars(items: readonly Item[], barSlots: number): readonly Item[] {
  const cut: Item[] = [];
  for (let at = 0; at < items.length; ) {
    const { group } = items[at]!;
    const run = group ? items.slice(at).filter((item) => item.group?.startSlot === group.startSlot) : [items[at]!];
    cut.push(...(group && isCut(group, barSlots) ? partsOf(run, group, barSlots) : run));
    at += run.length;
  }
  return cut;
}

const isCut = ({ startSlot, slotCount }: EventGroup, barSlots: number): boolean =>
  Math.floor(startSlot / barSlots) !== Math.floor((startSlot + slotCount - 1) / barSlots);

function partsOf(run: readonly Item[], { startSlot, slotCount }: EventGroup, barSlots: number): readonly Item[] {
  const events = run.flatMap(halves);
  const end = startSlot + slotCount;
  const parts: Item[] = [];
  for (let from = startSlot; from < end; ) {
    const to = Math.min(end, (Math.floor(from / barSlots) + 1) * barSlots);
    parts.push(...partOf(events, from, to));
    from = to;
  }
  return parts;
}

const later = (a: Rational, b: Rational): Rational => (compare(a, b) < 0 ? b : a);
const earlier = (a: Rational, b: Rational): Rational => (compare(a, b) < 0 ? a : b);

/** What stands between two slots, as a group of as many units as tell every onset apart. */
function partOf(events: readonly Item[], from: number, to: number): readonly Item[] {
  const [start, end] = [rational(from), rational(to)];
  const pieces = events
    .filter(({ slot, lengthSlots }) => compare(slot, end) < 0 && compare(add(slot, lengthSlots), start) > 0)
    .map((item) => pieceOf(item, start, end));
  const units = unitsIn([...pieces.map(({ slot }) => subtract(slot, start)), subtract(end, start)]);
  const group: EventGroup = { startSlot: from, slotCount: to - from, eventCount: multiply(units, rational(to - from)).num };
  return pieces.map((piece) => ({ ...piece, group }));
}

function pieceOf(item: Item, start: Rational, end: Rational): Item {
  const stop = add(item.slot, item.lengthSlots);
  const slot = later(item.slot, start);
  const continued = compare(item.slot, start) < 0;
  return {
    ...item,
    slot,
    lengthSlots: subtract(earlier(stop, end), slot),
    strokes: continued ? item.strokes.map(heldOn) : item.strokes,
    continued,
    tied: compare(stop, end) > 0,
  };
}

/** A stroke as it stands at the end of a tie: its head, and nothing that is played anew. */
export const heldOn = (held: SheetStroke): SheetStroke => ({
  ...held,
  stroke: { ...held.stroke, accent: false, buzz: false, diddle: null, graces: [] },
});

/** The fewest units per slot on which all these places fall. */
function unitsIn(places: readonly Rational[]): Rational {
  const perSlot = places.reduce((all, { den }) => lcm(all, den), 1);
  const shared = places.reduce((all, place) => gcd(all, (place.num * perSlot) / place.den), 0);
  return rational(perSlot, shared);
}
