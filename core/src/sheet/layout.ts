/** Where everything goes from left to right: one scale of px per beat for the whole sheet, lines broken at bar lines or, when narrow, at beats. */
import { toNumber } from '../rational.ts';
import { BAR_PAD, BEAT_LIMIT, END_PAD, GAP, GRACE_PAD, GRACE_STEP, MARGIN, REPEAT_BEATS, TIGHT_GAP } from './parameters.ts';
import type { WrittenBar } from './rhythm.ts';
import type { WrittenNote, WrittenTuplet } from './values.ts';

/** Width of a black note head, px. */
export const HEAD = 11.8;

/** Room for the parenthesis of a ghost note. */
const PARENTHESIS = 7;

/** Some beats of a bar that stand on one line. */
interface Segment {
  readonly bar: number;
  readonly firstBeat: number;
  readonly beats: number;
  readonly endsBar: boolean;
  /** Space from its start to its first beat. */
  readonly pad: number;
}

/** A note with its place: `x` is the left of its head. */
export interface PlacedNote {
  readonly note: WrittenNote;
  readonly x: number;
}

/** One voice of a line. */
export interface PlacedVoice {
  readonly stem: 'up' | 'down';
  readonly notes: readonly PlacedNote[];
  /** Tuplets over `notes`, by position in this line. */
  readonly tuplets: readonly WrittenTuplet[];
}

/** A line of the sheet. */
export interface SheetLine {
  readonly endX: number;
  readonly voices: readonly PlacedVoice[];
  /** Every beat of the line: its number in its bar, from 0, and where its notes' heads begin. */
  readonly beats: readonly { readonly beat: number; readonly x: number }[];
  /** Middles of bars that stand as a sign. */
  readonly repeats: readonly number[];
  /** Bar lines inside the line. */
  readonly barLines: readonly number[];
  readonly endsWithBar: boolean;
}

/** The lines of a sheet. */
export interface Layout {
  readonly lines: readonly SheetLine[];
  readonly widthPx: number;
  readonly pxPerBeat: number;
}

/** What the layout has to know of the drawing. */
export interface LayoutOptions {
  readonly beatsPerBar: number;
  readonly widthPx: number;
  /** Where notes may begin on every line: after clef and time signature. Later lines keep that space free, so that beats stand under each other. */
  readonly noteStartX: number;
}

/** Room left of a head: graces and a parenthesis. */
export function roomBefore(note: WrittenNote): number {
  const graces = Math.max(0, ...note.strokes.map(({ stroke }) => stroke.graces.length));
  const ghost = note.strokes.some(({ stroke }) => stroke.ghost);
  return (graces > 0 ? graces * GRACE_STEP + GRACE_PAD : 0) + (ghost ? PARENTHESIS : 0);
}

/** Room from the left of a head to the right of what belongs to it. */
export function roomAfter(note: WrittenNote): number {
  const ghost = note.strokes.some(({ stroke }) => stroke.ghost) ? PARENTHESIS : 0;
  const flag = note.beam === null && note.value >= 8 && note.strokes.length > 0 ? HEAD * 0.9 : 0;
  const diddle = note.strokes.some(({ stroke }) => stroke.diddle !== null) ? HEAD : 0;
  return HEAD + Math.max(ghost, flag, diddle);
}

/** Places every note of the written bars. */
export function layOut(bars: readonly WrittenBar[], options: LayoutOptions): Layout {
  const [least, tight] = [GAP, TIGHT_GAP].map((gap) => Math.max(...bars.map((bar) => leastPxPerBeat(bar, gap)))) as [number, number];
  const room = options.widthPx - 2 * MARGIN - options.noteStartX - END_PAD;
  const onBeats = bars.flatMap(({ voices }) => voices.flatMap(({ notes }) => notes.filter(({ beat }) => beat.den === 1)));
  const pad = BAR_PAD + Math.max(...onBeats.map(roomBefore));
  const segments = bars.flatMap((bar, index) => segmentsOf(bar, { index, tight, pad, room, beatsPerBar: options.beatsPerBar }));
  const lines = breakLines(segments, { least, room });
  const widest = lines.map((line) => (room - padsOf(line)) / beatsOf(line));
  const pxPerBeat = Math.max(tight, Math.min(...widest, BEAT_LIMIT, least * 2));
  const placed = lines.map((line, i) => placeLine(line, { bars, pxPerBeat, startX: MARGIN + options.noteStartX, last: i === lines.length - 1 }));
  return { lines: placed, pxPerBeat, widthPx: Math.max(...placed.map(({ endX }) => endX)) + MARGIN };
}

/** Px per beat at which neighbours in a bar stand at least `gap` apart, whichever voice they belong to. */
function leastPxPerBeat({ voices }: WrittenBar, gap: number): number {
  const columns = columnsOf(voices);
  const needs = columns.map(({ beat, after }, i) => {
    const next = columns[i + 1];
    return next ? (after + gap + next.before) / (next.beat - beat) : 0;
  });
  const last = voices.map(({ notes }) => notes.at(-1)!).map((note) => (roomAfter(note) + gap) / toNumber(note.lengthBeats));
  return Math.max(...needs, ...last);
}

interface Column {
  readonly beat: number;
  before: number;
  after: number;
}

/** Room that each onset of a bar needs, over all voices, in order of time. */
function columnsOf(voices: WrittenBar['voices']): readonly Column[] {
  const columns = new Map<string, Column>();
  for (const note of voices.flatMap(({ notes }) => notes)) {
    const key = `${note.beat.num}/${note.beat.den}`;
    const column = columns.get(key) ?? { beat: toNumber(note.beat), before: 0, after: 0 };
    column.before = Math.max(column.before, roomBefore(note));
    column.after = Math.max(column.after, roomAfter(note));
    columns.set(key, column);
  }
  return [...columns.values()].sort((a, b) => a.beat - b.beat);
}

interface SegmentOptions {
  readonly index: number;
  readonly tight: number;
  readonly pad: number;
  readonly room: number;
  readonly beatsPerBar: number;
}

/** The whole bar when it fits a line, else equal parts of whole beats that do; a bracket is never cut. */
function segmentsOf(bar: WrittenBar, { index, tight, pad, room, beatsPerBar }: SegmentOptions): readonly Segment[] {
  const fits = (beats: number) => pad + beats * tight <= room;
  let beats = beatsPerBar;
  for (let parts = 2; parts <= beatsPerBar && !fits(beats); parts++) beats = Math.ceil(beatsPerBar / parts);
  if (bar.repeats) return [{ bar: index, firstBeat: 0, beats: Math.min(REPEAT_BEATS, beatsPerBar), endsBar: true, pad }];
  const segments: Segment[] = [];
  for (let firstBeat = 0; firstBeat < beatsPerBar; ) {
    const end = segmentEnd(bar, { firstBeat, beats, beatsPerBar });
    segments.push({ bar: index, firstBeat, beats: end - firstBeat, endsBar: end === beatsPerBar, pad });
    firstBeat = end;
  }
  return segments;
}

/** The last clear beat within reach, else the next one there is. */
function segmentEnd(bar: WrittenBar, reach: { readonly firstBeat: number; readonly beats: number; readonly beatsPerBar: number }): number {
  const { firstBeat, beats, beatsPerBar } = reach;
  const ends = Array.from({ length: beatsPerBar - firstBeat }, (_, i) => firstBeat + 1 + i).filter(
    (beat) => beat === beatsPerBar || isClear(bar, beat),
  );
  return ends.filter((beat) => beat <= firstBeat + beats).at(-1) ?? ends[0]!;
}

/** Whether no note and no bracket of any voice reaches over this beat. */
const isClear = ({ voices }: WrittenBar, beat: number): boolean =>
  voices.every(({ notes, tuplets }) => {
    const begun = notes.findIndex((note) => toNumber(note.beat) >= beat);
    const exact = beat === 0 || (begun >= 0 && toNumber(notes[begun]!.beat) === beat);
    return exact && tuplets.every(({ first, last }) => last < begun || first >= begun);
  });

const beatsOf = (line: readonly Segment[]): number => line.reduce((sum, { beats }) => sum + beats, 0);
const padsOf = (line: readonly Segment[]): number => line.reduce((sum, { pad }) => sum + pad, 0);

function breakLines(
  segments: readonly Segment[],
  { least, room }: { readonly least: number; readonly room: number },
): readonly (readonly Segment[])[] {
  const lines: Segment[][] = [];
  for (const segment of segments) {
    const line = lines.at(-1);
    const grown = [...(line ?? []), segment];
    const fits = padsOf(grown) + beatsOf(grown) * least <= room;
    if (line && fits) line.push(segment);
    else lines.push([segment]);
  }
  return evened(lines);
}

/** Lines of about equal length when every segment is alike: three bars as 2 + 1 stay, five as 3 + 2 rather than 4 + 1. */
function evened(lines: readonly (readonly Segment[])[]): readonly (readonly Segment[])[] {
  const all = lines.flat();
  const perLine = Math.ceil(all.length / lines.length);
  if (all.some(({ beats }) => beats !== all[0]!.beats)) return lines;
  return Array.from({ length: lines.length }, (_, i) => all.slice(i * perLine, (i + 1) * perLine)).filter((line) => line.length > 0);
}

interface PlaceOptions {
  readonly bars: readonly WrittenBar[];
  readonly pxPerBeat: number;
  readonly startX: number;
  readonly last: boolean;
}

function placeLine(segments: readonly Segment[], { bars, pxPerBeat, startX, last }: PlaceOptions): SheetLine {
  const barLines: number[] = [];
  let x = startX;
  const repeats: number[] = [];
  const placed = segments.map((segment) => {
    const zero = x + segment.pad;
    if (bars[segment.bar]!.repeats) repeats.push((x + zero + segment.beats * pxPerBeat) / 2);
    x = zero + segment.beats * pxPerBeat;
    if (segment.endsBar) barLines.push(x);
    return { segment, bar: bars[segment.bar]!, zero };
  });
  const written = placed.filter(({ bar }) => !bar.repeats);
  const voices = bars[segments[0]!.bar]!.voices.map(({ stem }, index) => ({ stem, ...placeVoice(written, index, pxPerBeat) }));
  const beats = written.flatMap(({ segment: { firstBeat, beats: count }, zero }) =>
    Array.from({ length: count }, (_, i) => ({ beat: firstBeat + i, x: zero + i * pxPerBeat })),
  );
  return { endX: last ? x + END_PAD : x, voices, beats, repeats, barLines: barLines.filter((at) => at < x), endsWithBar: segments.at(-1)!.endsBar };
}

interface PlacedSegment {
  readonly segment: Segment;
  readonly bar: WrittenBar;
  /** Place of its first beat. */
  readonly zero: number;
}

function placeVoice(segments: readonly PlacedSegment[], index: number, pxPerBeat: number): Omit<PlacedVoice, 'stem'> {
  const notes: PlacedNote[] = [];
  const tuplets: WrittenTuplet[] = [];
  for (const { segment, bar, zero } of segments) {
    const voice = bar.voices[index]!;
    const inside = voice.notes.map((note, i) => ({ note, i })).filter(({ note }) => isInside(note, segment));
    const offset = notes.length - inside[0]!.i;
    tuplets.push(...voice.tuplets.filter(({ first }) => inside.some(({ i }) => i === first)).map((tuplet) => moved(tuplet, offset)));
    const xOf = (note: WrittenNote) => zero + (toNumber(note.beat) - segment.firstBeat) * pxPerBeat + centring(note, segment, pxPerBeat);
    notes.push(...inside.map(({ note }) => ({ note, x: xOf(note) })));
  }
  return { notes, tuplets };
}

const isInside = ({ beat }: WrittenNote, { firstBeat, beats }: Segment): boolean => toNumber(beat) >= firstBeat && toNumber(beat) < firstBeat + beats;

const moved = (tuplet: WrittenTuplet, offset: number): WrittenTuplet => ({ ...tuplet, first: tuplet.first + offset, last: tuplet.last + offset });

/** A rest for a whole bar stands in its middle. */
const centring = (note: WrittenNote, { beats }: Segment, pxPerBeat: number): number => (note.value === 1 ? (beats * pxPerBeat) / 2 - HEAD : 0);
