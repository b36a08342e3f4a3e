/** An exercise while it is being written: places in time, with strokes on their drums. */
import { eventsOf, type Hand, type Limb, type Sticking, type StickingEvent } from '../sticking/index.ts';
import { stickingOfContent } from './content.ts';
import type { ExerciseContent } from './exercise.ts';

/** One stroke on its drum. */
export interface Hit {
  readonly limb: Limb;
  /** Its drum; a diddle has two, one for each of its strokes. */
  readonly drums: readonly string[];
  readonly accent: boolean;
  readonly ghost: boolean;
  readonly roll: 'none' | 'diddle' | 'buzz';
  readonly graces: readonly Hand[];
  /** Whether it stands in the cell that is worked on. */
  readonly inCell: boolean;
}

/** Events evenly in the time of `slotCount` slots; a plain place is one event in one slot, written without braces. An event without hits is a rest. */
export interface Place {
  readonly slotCount: number;
  readonly events: readonly (readonly Hit[])[];
  readonly grouped: boolean;
}

export type Line = readonly Place[];

/** A plain stroke. */
export const hit = (limb: Limb, drum: string, more: Partial<Hit> = {}): Hit => ({
  limb,
  drums: [drum],
  accent: false,
  ghost: false,
  roll: 'none',
  graces: [],
  inCell: false,
  ...more,
});

/** The stroke as a ghost; a roll cannot be one in the language, and is only unaccented. */
export const ghosted = (each: Hit): Hit => ({ ...each, accent: false, ghost: each.roll === 'none' });

/** The stroke with or without an accent; one with an accent is no ghost. */
export const accented = (each: Hit, accent: boolean): Hit => ({ ...each, accent, ghost: each.ghost && !accent });

/** One slot with these hits together. */
export const place = (...hits: readonly Hit[]): Place => ({ slotCount: 1, events: [hits], grouped: false });

/** Slots of silence; none for 0 or less. */
export const rest = (slotCount: number): Line => Array.from({ length: Math.max(0, slotCount) }, () => place());

/** The line of a content. `inCell` tells of each main stroke whether the cell holds it. */
export const lineOf = (content: ExerciseContent, inCell?: (index: number) => boolean): Line =>
  lineOfSticking(stickingOfContent(content), content.surfaces, inCell);

/** The line of a sticking that is read already. @param surfaces drum of each main stroke, by index. */
export function lineOfSticking(sticking: Sticking, surfaces: readonly string[], inCell: (index: number) => boolean = () => false): Line {
  const places: { readonly startSlot: number | null; readonly slotCount: number; readonly events: Hit[][] }[] = [];
  for (const event of eventsOf(sticking)) {
    const hits = hitsOf(event, surfaces, inCell);
    const before = places.at(-1);
    if (event.group && before?.startSlot === event.group.startSlot) before.events.push(hits);
    else places.push({ startSlot: event.group?.startSlot ?? null, slotCount: event.group?.slotCount ?? 1, events: [hits] });
  }
  return places.map(({ startSlot, slotCount, events }) => ({ slotCount, events, grouped: startSlot !== null }));
}

function hitsOf({ strokes }: StickingEvent, surfaces: readonly string[], inCell: (index: number) => boolean): Hit[] {
  const drumsOf = (limb: Limb) => strokes.filter((stroke) => stroke.limb === limb).map(({ index }) => surfaces[index]!);
  return strokes
    .filter(({ diddle }) => diddle !== 'second')
    .map(({ index, limb, accent, ghost, buzz, diddle, graces }) => ({
      limb,
      drums: drumsOf(limb),
      accent,
      ghost,
      roll: diddle ? 'diddle' : buzz ? 'buzz' : 'none',
      graces,
      inCell: inCell(index),
    }));
}

/** The canonical text of a line. */
export const textOf = (line: Line): string => line.map(placeText).join('');

function placeText({ slotCount, events, grouped }: Place): string {
  const inside = events.map((hits) => (hits.length === 0 ? '-' : hits.map(hitText).join('+'))).join('');
  return grouped ? `{${slotCount}:${inside}}` : inside;
}

function hitText({ limb, accent, ghost, roll, graces }: Hit): string {
  const letter = ghost ? `(${limb})` : limb;
  return `${graces.join('').toLowerCase()}${accent ? '>' : ''}${letter}${ROLL_SIGNS[roll]}`;
}

const ROLL_SIGNS = { none: '', diddle: '/', buzz: 'z' } as const;

/** The drum of each main stroke, in the order the sticking counts them: the second strokes of diddles after the first ones of their slot. */
export function surfacesOf(line: Line): readonly string[] {
  const all: string[] = [];
  for (const { events } of line) {
    for (const hits of events) {
      for (const { drums } of hits) all.push(drums[0]!);
      for (const { drums, roll } of hits) if (roll === 'diddle') all.push(drums[1]!);
    }
  }
  return all;
}

/** Length in slots. */
export function slotsOf(line: Line): number {
  let sum = 0;
  for (const { slotCount } of line) sum += slotCount;
  return sum;
}

/** Every hit in order of time. */
export function hitsIn(line: Line): readonly Hit[] {
  const all: Hit[] = [];
  for (const { events } of line) for (const hits of events) all.push(...hits);
  return all;
}

/** The line with each hit made another, or none where `make` gives null. `at` counts the hits from 0. */
export function mapHits(line: Line, make: (hit: Hit, at: number) => Hit | null): Line {
  let at = 0;
  const event = (hits: readonly Hit[]) => hits.map((each) => make(each, at++)).filter((each) => each !== null);
  return line.map((each) => ({ ...each, events: each.events.map(event) }));
}

/** The line so many times. */
export const repeated = (line: Line, times: number): Line => Array.from({ length: times }, () => line).flat();

/** Slots in which a place of the line begins. */
export function startSlotsOf(line: Line): readonly number[] {
  let slot = 0;
  return line.map(({ slotCount }) => {
    slot += slotCount;
    return slot - slotCount;
  });
}

/**
 * So many slots of a loop, from a slot on. A group that would be cut is left out, silence instead.
 * @param start a slot in which a place begins.
 */
export function windowOf(line: Line, start: number, slotCount: number): Line {
  const first = startSlotsOf(line).indexOf(start % slotsOf(line));
  const taken: Place[] = [];
  let left = slotCount;
  for (let i = first; left > 0; i++) {
    const next = line[i % line.length]!;
    if (next.slotCount > left) break;
    taken.push(next);
    left -= next.slotCount;
  }
  return [...taken, ...rest(left)];
}

/** The hits that begin in a slot; none in a rest, null inside a group. */
export function hitsAt(line: Line, slot: number): readonly Hit[] | null {
  const at = startSlotsOf(line).indexOf(slot);
  return at < 0 ? null : line[at]!.events[0]!;
}

/** The hits in order: hands before feet, as they are written together. */
const together = (hits: readonly Hit[]): readonly Hit[] => [...hits].sort((a, b) => Number(isFoot(a.limb)) - Number(isFoot(b.limb)));

/** Whether a limb is a foot. */
export const isFoot = (limb: Limb): boolean => limb === 'K' || limb === 'H';

/**
 * The line with more hits in some slots, or null where it cannot be: the slot is inside a group, or the limb is busy there, a grace included.
 * @param more hits for a slot; none for most.
 */
export function withHits(line: Line, more: (slot: number) => readonly Hit[]): Line | null {
  const starts = startSlotsOf(line);
  const wanted = Array.from({ length: slotsOf(line) }, (_, slot) => ({ slot, hits: more(slot) })).filter(({ hits }) => hits.length > 0);
  const free = wanted.every(({ slot, hits }) => {
    const there = hitsAt(line, slot);
    return there !== null && hits.every((each) => !there.some(({ limb, graces }) => limb === each.limb || graces.includes(each.limb as Hand)));
  });
  if (!free) return null;
  return line.map((each, i) => {
    const added = wanted.find(({ slot }) => slot === starts[i])?.hits;
    if (!added) return each;
    const [first, ...others] = each.events;
    return { ...each, events: [together([...added, ...first!]), ...others] };
  });
}

/** Onsets of a limb's main strokes in slots from the start of the line, both of a diddle. */
export function onsetsOf(line: Line, limb: Limb): readonly number[] {
  const onsets: number[] = [];
  let slot = 0;
  for (const { slotCount, events } of line) {
    const length = slotCount / events.length;
    for (let i = 0; i < events.length; i++) {
      for (const own of events[i]!) {
        if (own.limb !== limb) continue;
        onsets.push(slot + i * length);
        if (own.roll === 'diddle') onsets.push(slot + (i + 0.5) * length);
      }
    }
    slot += slotCount;
  }
  return onsets;
}
