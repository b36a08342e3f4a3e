/** Note values, rests and brackets of the beats of a bar. */
import type { ExerciseContent, Meter } from '../exercise/index.ts';
import { add, divide, gcd, multiply, type Rational, rational, toNumber } from '../rational.ts';
import type { EventGroup } from '../sticking/index.ts';
import { heldOn } from './cuts.ts';
import { type Item, isDiddle, isSilent, type SheetStroke, type Span } from './items.ts';
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
  /** The end of a tie: its heads sound on and are no new strokes. */
  readonly continued: boolean;
  /** The start of a tie to the next note of its voice, which may stand in the next bar. */
  readonly tied: boolean;
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

/** What most notes are. */
const ALONE = { beam: null, crossing: null, continued: false, tied: false } as const;

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
    return { notes: [{ beat, lengthBeats: rational(1), value: meter.unit, strokes: first!.strokes, ...ALONE }], tuplets: [] };
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
    const written = group ? taken.flatMap((item) => groupNotes(item, group, { perBeat, slotValue })) : [plainNote(taken, { perBeat, slotValue })];
    if (group) inner.push(...tupletOf(group, { first: notes.length, count: written.length }, slotValue));
    notes.push(...written);
    at += taken.length;
  }
  const outer = perBeat === parts ? [] : [outerTuplet(span, notes.length, { perBeat, parts })];
  return { notes, tuplets: [...outer, ...inner.map((tuplet) => ({ ...tuplet, inner: outer.length > 0 }))] };
}

/** A rest for whole beats. */
function silence(span: Span, meter: Meter): Draft {
  const value = span.beats === meter.beats && span.beats > 1 ? 1 : meter.unit / span.beats;
  return { beat: rational(span.firstBeat), lengthBeats: rational(span.beats), value, strokes: [], ...ALONE };
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
  return { beat, lengthBeats: rational(items.length, perBeat), value: slotValue / items.length, strokes: first!.strokes, ...ALONE };
}

/** An event of a group: one note; in the part of a group that a bar line cuts, as many as its time takes. */
function groupNotes(item: Item, group: EventGroup, { perBeat, slotValue }: SlotOptions): readonly Draft[] {
  const slots = rational(perBeat);
  const value = (slotValue * timesOf(group, slotValue)) / group.slotCount;
  const [first, last] = [group.startSlot, group.startSlot + group.slotCount - 1].map((slot) => Math.floor(slot / perBeat));
  const crossing = first === last ? null : group.startSlot;
  const unit = divide(rational(group.slotCount, group.eventCount), slots);
  const { continued = false, tied = false } = item;
  const lengths = unitsOf(toNumber(divide(item.lengthSlots, rational(group.slotCount, group.eventCount))), value);
  let beat = divide(item.slot, slots);
  return lengths.map((length, i) => {
    const held = continued || tied;
    const strokes = i === 0 ? item.strokes : held ? item.strokes.map(heldOn) : [];
    const more = i < lengths.length - 1;
    const note = { beat, lengthBeats: multiply(unit, rational(length)), value: value / length, strokes };
    beat = add(beat, note.lengthBeats);
    return { ...note, ...ALONE, crossing, continued: held && (continued || i > 0), tied: held && (more || tied) && strokes.length > 0 };
  });
}

/** So many units as values that can be written, the longest first; none is longer than a quarter. */
function unitsOf(units: number, value: number): readonly number[] {
  const lengths: number[] = [];
  for (let left = units; left > 0; left -= lengths.at(-1)!) lengths.push(Math.min(2 ** Math.floor(Math.log2(left)), Math.max(1, value / 4)));
  return lengths;
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
  // Where a bar line cut the group its events are several units long, and the ratio is told as players know it: 5, not 15.
  const shared = notes.count === group.eventCount ? 1 : gcd(group.eventCount, inTimeOf);
  const [count, normal] = [group.eventCount / shared, inTimeOf / shared];
  return [{ first: notes.first, last: notes.first + notes.count - 1, count, inTimeOf: normal, inner: false }];
}
