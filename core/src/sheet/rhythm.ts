/** From the content of an exercise to written bars: note values, rests, tuplets and beams, exact in fractions of a beat. */
import { barsUntilMet, type ExerciseContent, type Meter, stickingOfContent } from '../exercise/index.ts';
import { add, compare, divide, type Rational, rational, toNumber, ZERO } from '../rational.ts';
import { type EventGroup, eventsOf, type StickingEvent, type WrittenStroke } from '../sticking/index.ts';
import { BAR_LIMIT } from './parameters.ts';

/** A main stroke in its cycle. */
export interface SheetStroke {
  readonly cycle: number;
  readonly stroke: WrittenStroke;
  readonly drum: string;
}

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

export interface WrittenBar {
  readonly notes: readonly WrittenNote[];
  readonly tuplets: readonly WrittenTuplet[];
}

/** The bars of an exercise as written out. */
export interface Written {
  readonly bars: readonly WrittenBar[];
  /** Bars until the cycle meets the bar line, when more than are written out. */
  readonly barsInAll: number;
}

/**
 * Writes out an exercise until its cycle meets the bar line, at most `barLimit` bars.
 * A group that a bar line cuts stands in both bars, each part under its own bracket.
 */
export function writeOut(content: ExerciseContent, barLimit: number = BAR_LIMIT): Written {
  const { slotCount } = stickingOfContent(content);
  const barsInAll = barsUntilMet(slotCount, content.perBeat, content.meter);
  const count = Math.min(barsInAll, barLimit);
  const barSlots = content.meter.beats * content.perBeat;
  const items = itemsUntil(content, count * barSlots);
  const bars = Array.from({ length: count }, (_, bar) => {
    const inBar = items.filter(({ slot }) => compare(slot, rational(bar * barSlots)) >= 0 && compare(slot, rational((bar + 1) * barSlots)) < 0);
    return writeBar(
      inBar.map((item) => shift(item, -bar * barSlots)),
      content,
    );
  });
  return { bars, barsInAll };
}

/** An event of some cycle, placed in slots from the start of the bar. */
interface Item {
  readonly slot: Rational;
  readonly lengthSlots: Rational;
  readonly strokes: readonly SheetStroke[];
  readonly group: EventGroup | null;
}

const shift = (item: Item, slots: number): Item => ({
  ...item,
  slot: add(item.slot, rational(slots)),
  group: item.group && { ...item.group, startSlot: item.group.startSlot + slots },
});

function itemsUntil(content: ExerciseContent, slots: number): readonly Item[] {
  const sticking = stickingOfContent(content);
  const cycles = Math.ceil(slots / sticking.slotCount);
  const events = eventsOf(sticking).flatMap(unpackSingle);
  return Array.from({ length: cycles }, (_, cycle) => cycle).flatMap((cycle) => {
    const placed = events.map(({ strokes, ...event }) => ({
      ...event,
      strokes: strokes.map((stroke) => ({ cycle, stroke, drum: content.surfaces[stroke.index]! })),
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
interface Span {
  readonly firstBeat: number;
  readonly beats: number;
  readonly items: readonly Item[];
}

function writeBar(items: readonly Item[], content: ExerciseContent): WrittenBar {
  const notes: Draft[] = [];
  const tuplets: WrittenTuplet[] = [];
  for (const span of joinRests(spansOf(items, content), content)) {
    const written = writeSpan(span, content);
    tuplets.push(...written.tuplets.map((tuplet) => ({ ...tuplet, first: tuplet.first + notes.length, last: tuplet.last + notes.length })));
    notes.push(...written.notes);
  }
  return { notes: withBeams(notes, content), tuplets };
}

function spansOf(items: readonly Item[], { meter, perBeat }: ExerciseContent): readonly Span[] {
  const spans: { firstBeat: number; beats: number; items: Item[] }[] = [];
  for (let beat = 0; beat < meter.beats; beat++) {
    const start = beat * perBeat;
    const inside = items.filter(({ slot }) => Math.floor(toNumber(slot) / perBeat) === beat);
    const crossed = items.some(({ group }) => group && group.startSlot < start && group.startSlot + group.slotCount > start);
    const before = spans.at(-1);
    if (before && crossed) {
      before.beats += 1;
      before.items.push(...inside);
    } else {
      spans.push({ firstBeat: beat, beats: 1, items: inside });
    }
  }
  return spans;
}

const isSilent = (span: Span): boolean => span.items.every(({ strokes, group }) => strokes.length === 0 && group === null);

/** Silent beats become one rest where notation has one: the whole bar, or a half of four. */
function joinRests(spans: readonly Span[], { meter }: ExerciseContent): readonly Span[] {
  if (spans.every(isSilent)) return [{ firstBeat: 0, beats: meter.beats, items: [] }];
  if (meter.beats !== 4 || meter.unit !== 4) return spans;
  return spans.flatMap((span, i) => {
    const [before, after] = [spans[i - 1], spans[i + 1]];
    const silent = span.beats === 1 && isSilent(span);
    if (silent && span.firstBeat % 2 === 0 && after?.beats === 1 && isSilent(after)) return [{ ...span, beats: 2, items: [] }];
    if (silent && span.firstBeat % 2 === 1 && before?.beats === 1 && isSilent(before)) return [];
    return [span];
  });
}

const powerBelow = (count: number): number => 2 ** Math.floor(Math.log2(count));

/** A note before beams are known: `crossing` tells apart groups that reach over a beat and are beamed as one. */
interface Draft extends WrittenNote {
  readonly crossing: number | null;
}

function writeSpan(span: Span, content: ExerciseContent): { readonly notes: readonly Draft[]; readonly tuplets: readonly WrittenTuplet[] } {
  const { perBeat, meter } = content;
  const beat = rational(span.firstBeat);
  if (isSilent(span)) return { notes: [silence(span, meter)], tuplets: [] };
  const [first, ...others] = span.items;
  const alone = span.beats === 1 && others.every(({ strokes }) => strokes.length === 0) && first!.group === null && first!.strokes.length > 0;
  if (alone && !isDiddle(first!)) {
    return { notes: [{ beat, lengthBeats: rational(1), value: meter.unit, strokes: first!.strokes, beam: null, crossing: null }], tuplets: [] };
  }
  const slotValue = meter.unit * powerBelow(perBeat);
  const notes: Draft[] = [];
  const inner: WrittenTuplet[] = [];
  let at = 0;
  while (at < span.items.length) {
    const { group } = span.items[at]!;
    const taken = group
      ? span.items.slice(at).filter((item) => item.group?.startSlot === group.startSlot)
      : span.items.slice(at, at + plainLength(span, at, perBeat));
    if (group) inner.push(...tupletOf(group, { first: notes.length, count: taken.length }, slotValue));
    notes.push(...(group ? taken.map((item) => groupNote(item, group, { perBeat, slotValue })) : [plainNote(taken, { perBeat, slotValue })]));
    at += taken.length;
  }
  const outer = perBeat === powerBelow(perBeat) ? [] : [outerTuplet(span, notes.length, perBeat)];
  return { notes, tuplets: [...outer, ...inner.map((tuplet) => ({ ...tuplet, inner: outer.length > 0 }))] };
}

/** A rest for whole beats. */
function silence(span: Span, meter: Meter): Draft {
  const value = span.beats === meter.beats && span.beats > 1 ? 1 : meter.unit / span.beats;
  return { beat: rational(span.firstBeat), lengthBeats: rational(span.beats), value, strokes: [], beam: null, crossing: null };
}

const outerTuplet = (span: Span, noteCount: number, perBeat: number): WrittenTuplet => ({
  first: 0,
  last: noteCount - 1,
  count: span.beats * perBeat,
  inTimeOf: span.beats * powerBelow(perBeat),
  inner: false,
});

const isDiddle = ({ strokes }: Item): boolean => strokes.some(({ stroke }) => stroke.diddle !== null);

/** Slots that the plain event at `at` takes with the rests after it: 1, or more where one longer value says the same and the beat stays clear. */
function plainLength(span: Span, at: number, perBeat: number): number {
  const item = span.items[at]!;
  if (isDiddle(item)) return 1;
  const place = (toNumber(item.slot) - span.firstBeat * perBeat) % perBeat;
  const free = span.items.slice(at + 1).findIndex(({ strokes, group }) => strokes.length > 0 || group !== null);
  const room = Math.min(free < 0 ? span.items.length - at : free + 1, perBeat - place);
  if (perBeat === 3) return item.strokes.length > 0 ? Math.min(room, 2) : 1;
  const duple = perBeat === powerBelow(perBeat);
  for (let length = duple ? perBeat : 2; length > 1; length /= 2) {
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
  for (let times = slotCount * 2 ** 6; times >= 1; times /= 2) {
    if (Number.isInteger(times) && times <= eventCount && (slotValue * times) / slotCount >= 4) return times;
  }
  return slotCount;
}

function tupletOf(group: EventGroup, notes: { readonly first: number; readonly count: number }, slotValue: number): readonly WrittenTuplet[] {
  const inTimeOf = timesOf(group, slotValue);
  if (inTimeOf === group.eventCount) return [];
  return [{ first: notes.first, last: notes.first + notes.count - 1, count: group.eventCount, inTimeOf, inner: false }];
}

/** Beams within a beat, broken at rests and at values without flags. */
function withBeams(notes: readonly Draft[], { meter }: ExerciseContent): readonly WrittenNote[] {
  let beam = 0;
  let before: Draft | undefined;
  const numbered = notes.map(({ crossing, ...plain }): WrittenNote => {
    const note = { ...plain, crossing };
    if (note.value < 8 || note.strokes.length === 0) {
      before = undefined;
      return plain;
    }
    if (!before || beamKey(before, meter) !== beamKey(note, meter)) beam += 1;
    before = note;
    return { ...plain, beam };
  });
  const sizes = new Map<number | null, number>();
  for (const note of numbered) sizes.set(note.beam, (sizes.get(note.beam) ?? 0) + 1);
  return numbered.map((note) => (sizes.get(note.beam) === 1 ? { ...note, beam: null } : note));
}

/** What notes of one beam share. */
const beamKey = (note: Draft, meter: Meter): string => (note.crossing === null ? `beat ${beamBeat(note, meter)}` : `group ${note.crossing}`);

/** The beat a note is beamed in; in eighths three make one where the bar is of threes. */
function beamBeat({ beat }: WrittenNote, meter: Meter): number {
  const beatsTogether = meter.unit === 8 && meter.beats % 3 === 0 ? 3 : 1;
  return Math.floor(toNumber(beat) / beatsTogether);
}

/** Sum of the lengths of a bar's notes, in beats. */
export const lengthOf = (bar: WrittenBar): Rational => bar.notes.reduce((sum, { lengthBeats }) => add(sum, lengthBeats), ZERO);
