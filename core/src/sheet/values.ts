/** Note values, rests and brackets of the beats of a bar. */
import type { ExerciseContent, Meter } from '../exercise/index.ts';
import { divide, type Rational, rational, toNumber } from '../rational.ts';
import type { EventGroup } from '../sticking/index.ts';
import { type Item, isSilent, type SheetStroke, type Span } from './items.ts';
import { SHORTEST } from './parameters.ts';

/** A written note, or a rest when it has no strokes. */
export interface WrittenNote {
  /** Onset in beats from the start of its bar. */
  readonly beat: Rational;
  /** Its time in beats; the lengths of a bar add up to the bar. */
  readonly lengthBeats: Rational;
  /** 1 whole, 4 quarter, 16 sixteenth … */
  readonly value: number;
  /** Strokes that begin with it, both of a diddle. */
  readonly strokes: readonly SheetStroke[];
  /** Notes with the same number that is not null share a beam. */
  readonly beam: number | null;
}

/** Notes `first` to `last` of a bar, `count` in the time of `inTimeOf`. An inner one stands in an outer one. */
export interface WrittenTuplet {
  readonly first: number;
  readonly last: number;
  readonly count: number;
  readonly inTimeOf: number;
  readonly inner: boolean;
}

/** Parts a beat is written in: the largest power of two that is no more than its slots, and no shorter than the shortest value. */
const partsOf = (perBeat: number, unit: number): number => Math.min(2 ** Math.floor(Math.log2(perBeat)), SHORTEST / unit);

/** A note before beams are known: `crossing` tells apart groups that reach over a beat and are beamed as one. */
export interface Draft extends WrittenNote {
  readonly crossing: number | null;
}

/** The notes of a span, beams left open, and the brackets over them. */
export function writeSpan(span: Span, content: ExerciseContent): { readonly notes: readonly Draft[]; readonly tuplets: readonly WrittenTuplet[] } {
  const { perBeat, meter } = content;
  const beat = rational(span.firstBeat);
  if (isSilent(span)) return { notes: [silence(span, meter)], tuplets: [] };
  const [first, ...others] = span.items;
  const alone = span.beats === 1 && others.every(({ strokes }) => strokes.length === 0) && first!.group === null && first!.strokes.length > 0;
  if (alone && !isDiddle(first!)) {
    return { notes: [{ beat, lengthBeats: rational(1), value: meter.unit, strokes: first!.strokes, beam: null, crossing: null }], tuplets: [] };
  }
  const parts = partsOf(perBeat, meter.unit);
  const slotValue = meter.unit * parts;
  const notes: Draft[] = [];
  const inner: WrittenTuplet[] = [];
  let at = 0;
  while (at < span.items.length) {
    const { group } = span.items[at]!;
    const taken = group
      ? span.items.slice(at).filter((item) => item.group?.startSlot === group.startSlot)
      : span.items.slice(at, at + plainLength(span, at, { perBeat, parts }));
    if (group) inner.push(...tupletOf(group, { first: notes.length, count: taken.length }, slotValue));
    notes.push(...(group ? taken.map((item) => groupNote(item, group, { perBeat, slotValue })) : [plainNote(taken, { perBeat, slotValue })]));
    at += taken.length;
  }
  const outer = perBeat === parts ? [] : [outerTuplet(span, notes.length, { perBeat, parts })];
  return { notes, tuplets: [...outer, ...inner.map((tuplet) => ({ ...tuplet, inner: outer.length > 0 }))] };
}

/** A rest for whole beats. */
function silence(span: Span, meter: Meter): Draft {
  const value = span.beats === meter.beats && span.beats > 1 ? 1 : meter.unit / span.beats;
  return { beat: rational(span.firstBeat), lengthBeats: rational(span.beats), value, strokes: [], beam: null, crossing: null };
}

interface BeatParts {
  readonly perBeat: number;
  readonly parts: number;
}

const outerTuplet = (span: Span, noteCount: number, { perBeat, parts }: BeatParts): WrittenTuplet => ({
  first: 0,
  last: noteCount - 1,
  count: span.beats * perBeat,
  inTimeOf: span.beats * parts,
  inner: false,
});

const isDiddle = ({ strokes }: Item): boolean => strokes.some(({ stroke }) => stroke.diddle !== null);

/** Slots that the plain event at `at` takes with the rests after it: 1, or more where one longer value says the same and the beat stays clear. */
function plainLength(span: Span, at: number, { perBeat, parts }: BeatParts): number {
  const item = span.items[at]!;
  if (isDiddle(item)) return 1;
  const place = (toNumber(item.slot) - span.firstBeat * perBeat) % perBeat;
  const free = span.items.slice(at + 1).findIndex(({ strokes, group }) => strokes.length > 0 || group !== null);
  const room = Math.min(free < 0 ? span.items.length - at : free + 1, perBeat - place);
  if (perBeat === 3) return item.strokes.length > 0 ? Math.min(room, 2) : 1;
  for (let length = perBeat === parts ? perBeat : 2; length > 1; length /= 2) {
    if (length <= room && place % length === 0 && perBeat % length === 0) return length;
  }
  return 1;
}

interface SlotOptions {
  readonly perBeat: number;
  readonly slotValue: number;
}

function plainNote(items: readonly Item[], { perBeat, slotValue }: SlotOptions): Draft {
  const [first] = items;
  const beat = divide(first!.slot, rational(perBeat));
  return { beat, lengthBeats: rational(items.length, perBeat), value: slotValue / items.length, strokes: first!.strokes, beam: null, crossing: null };
}

function groupNote(item: Item, group: EventGroup, { perBeat, slotValue }: SlotOptions): Draft {
  const slots = rational(perBeat);
  const value = (slotValue * timesOf(group, slotValue)) / group.slotCount;
  const [first, last] = [group.startSlot, group.startSlot + group.slotCount - 1].map((slot) => Math.floor(slot / perBeat));
  const crossing = first === last ? null : group.startSlot;
  return { beat: divide(item.slot, slots), lengthBeats: divide(item.lengthSlots, slots), value, strokes: item.strokes, beam: null, crossing };
}

/** How many notes of a plain value fill the time of a group: the most that are no more than its events, and no longer than quarters. */
function timesOf({ slotCount, eventCount }: EventGroup, slotValue: number): number {
  for (let times = slotCount * (SHORTEST / slotValue); times >= 1; times /= 2) {
    if (Number.isInteger(times) && times <= eventCount && (slotValue * times) / slotCount >= 4) return times;
  }
  return slotCount;
}

function tupletOf(group: EventGroup, notes: { readonly first: number; readonly count: number }, slotValue: number): readonly WrittenTuplet[] {
  const inTimeOf = timesOf(group, slotValue);
  if (inTimeOf === group.eventCount) return [];
  return [{ first: notes.first, last: notes.first + notes.count - 1, count: group.eventCount, inTimeOf, inner: false }];
}
