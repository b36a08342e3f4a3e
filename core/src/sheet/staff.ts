/** One line of a sheet through VexFlow: staff, heads, stems, flags, beams, brackets, graces, at the places the layout gave. */
import { Barline, BarlineType, Beam, GraceNote, Stave, StaveNote, StaveTie, type Stem, TickContext, Tuplet } from 'vexflow/core';
import type { Meter } from '../exercise/index.ts';
import type { Drum, Head } from '../kit/index.ts';
import type { SheetStroke } from './items.ts';
import { HEAD, type PlacedNote, type SheetLine } from './layout.ts';
import { GRACE_PAD, GRACE_STEP, STEM, STEM_PER_BEAM } from './parameters.ts';
import { escaped, glyphBox, type Pen } from './pen.ts';
import type { WrittenNote, WrittenTuplet } from './values.ts';

/** What a line needs to be drawn. */
export interface StaffOptions {
  readonly meter: Meter;
  readonly first: boolean;
  /** Left end of the staff. */
  readonly x: number;
  /** Top staff line. */
  readonly y: number;
  /** Upper edge of the beams. */
  readonly beamY: number;
  /** Upper edge of the accents, and of the lowest tuplet numbers. */
  readonly accentY: number;
  readonly tupletY: number;
  readonly tupletLane: number;
  readonly end: 'repeat' | 'bar' | 'open';
}

/** VexFlow's own padding between the start of notes and the first. */
const VEX_PADDING = 12;

const GLYPH = { parenthesisLeft: '\ue0f5', parenthesisRight: '\ue0f6', accent: '\ue4a0', slash: '\ue220', buzz: '\ue22a' } as const;

/** Letters of VexFlow's key notation for the heads, of quarters and shorter, and of halves. */
const HEAD_KEYS: Readonly<Record<Head, string>> = { normal: '', x: '/x2', 'circle-x': '/x3', diamond: '/d2', triangle: '/t2' };
const HALF_KEYS: Readonly<Record<Head, string>> = { normal: '', x: '/x1', 'circle-x': '/x3', diamond: '/d1', triangle: '/t1' };

/** The SMuFL glyph of each head. */
export const HEAD_GLYPHS: Readonly<Record<Head, string>> = {
  normal: '\ue0a4',
  x: '\ue0a9',
  'circle-x': '\ue0b3',
  diamond: '\ue0db',
  triangle: '\ue0be',
};

/**
 * How far above the middle of the head a stem meets it.
 * An x is met at its corner, a triangle at its foot.
 */
const STEM_OFFSET: Readonly<Record<Head, number>> = { normal: 0, x: 4.4, 'circle-x': 0, diamond: 0, triangle: -4.4 };

/** Where notes may begin after clef and time signature. */
export const noteStartX = (meter: Meter): number => staveFor({ meter, first: true, x: 0, y: 0 }, 400).getNoteStartX();

function staveFor(options: Pick<StaffOptions, 'meter' | 'first' | 'x' | 'y'>, width: number): Stave {
  const stave = new Stave(options.x, options.y, width, { spaceAboveStaffLn: 0, leftBar: false, rightBar: false });
  stave.addClef('percussion');
  if (options.first) stave.addTimeSignature(`${options.meter.beats}/${options.meter.unit}`);
  return stave;
}

/** Draws one line. */
export function drawStaff(pen: Pen, line: SheetLine, options: StaffOptions): void {
  const stave = staveFor(options, line.endX - options.x);
  stave.setEndBarType({ repeat: BarlineType.REPEAT_END, bar: BarlineType.SINGLE, open: BarlineType.NONE }[options.end]);
  stave.setContext(pen.context);
  pen.open('class="staff"');
  stave.drawWithStyle();
  for (const x of line.barLines) drawBarLine(stave, x);
  pen.close();
  const notes = line.notes.map((placed) => noteOn(pen, stave, placed));
  const beams = beamsOf(line.notes, notes, options.beamY);
  const tuplets = tupletsOf(line, notes, options);
  notes.forEach((note, i) => {
    drawNote(pen, { note, placed: line.notes[i]!, stave, options });
  });
  for (const drawn of [...beams, ...tuplets]) drawn.setContext(pen.context).drawWithStyle();
}

function drawBarLine(stave: Stave, x: number): void {
  new Barline(BarlineType.SINGLE).setStave(stave).setX(x).draw();
}

/** Strokes of a note as heads, low to high: the second of a diddle has no head of its own. */
export function headsOf(note: WrittenNote): readonly SheetStroke[] {
  return note.strokes.filter(({ stroke }) => stroke.diddle !== 'second').sort((a, b) => a.drum.step - b.drum.step);
}

const keyOf = ({ pitch, head }: Drum, value: number): string =>
  `${pitch[0]!.toLowerCase()}/${pitch.slice(1)}${(value < 4 ? HALF_KEYS : HEAD_KEYS)[head]}`;

function noteOn(pen: Pen, stave: Stave, { note, x }: PlacedNote): StaveNote {
  const heads = headsOf(note);
  const rest = heads.length === 0;
  const drawn = new StaveNote({
    keys: rest ? ['b/4'] : heads.map(({ drum }) => keyOf(drum, note.value)),
    duration: `${note.value}${rest ? 'r' : ''}`,
    stemDirection: 1,
  });
  place(drawn, stave, x);
  drawn.setContext(pen.context);
  if (!rest) fitStem(drawn.getStem(), heads[0]!.drum.head);
  return drawn;
}

function fitStem(stem: Stem | undefined, head: Head): void {
  stem?.setOptions({ stemUpYOffset: STEM_OFFSET[head], stemDownYOffset: STEM_OFFSET[head] });
}

/** Sets a note with the left of its head at x. */
function place(note: StaveNote, stave: Stave, x: number): void {
  note.setStave(stave);
  note.setTickContext(new TickContext().setX(x - stave.getNoteStartX() - VEX_PADDING));
  note.preFormat();
}

function beamsOf(placed: readonly PlacedNote[], notes: readonly StaveNote[], beamY: number): readonly Beam[] {
  const groups: StaveNote[][] = [];
  placed.forEach(({ note: { beam } }, i) => {
    if (beam === null) return;
    if (placed[i - 1]?.note.beam === beam) groups.at(-1)!.push(notes[i]!);
    else groups.push([notes[i]!]);
  });
  return groups.filter((group) => group.length > 1).map((group) => flatBeam(group, beamY));
}

function flatBeam(group: StaveNote[], beamY: number): Beam {
  const beam = new Beam(group);
  beam.renderOptions.flatBeams = true;
  beam.renderOptions.flatBeamOffset = beamY;
  if (group.every((note) => note.getDuration() === '32') && group.length === 8) beam.breakSecondaryAt([3]);
  beam.postFormat();
  return beam;
}

function tupletsOf(line: SheetLine, notes: readonly StaveNote[], { tupletY, tupletLane }: StaffOptions): readonly Tuplet[] {
  return line.tuplets.map((written) => {
    const inside = notes.slice(written.first, written.last + 1);
    const bracketed = !isOneBeam(line, written);
    const ratioed = written.inTimeOf > written.count;
    const tuplet = new Tuplet(inside, { numNotes: written.count, notesOccupied: written.inTimeOf, bracketed, ratioed });
    const lane = hasInner(line, written.first, written.last) && !written.inner ? 1 : 0;
    tuplet.getYPosition = () => tupletY - lane * tupletLane;
    for (const note of inside) if (note.isRest()) note.setKeyLine(0, 3);
    return tuplet;
  });
}

/** Whether a tuplet is exactly the notes of one beam, so that its number alone says what it covers. */
function isOneBeam({ notes }: SheetLine, { first, last }: WrittenTuplet): boolean {
  const beam = notes[first]!.note.beam;
  const inside = notes.slice(first, last + 1).every(({ note }) => note.beam === beam);
  return beam !== null && inside && notes[first - 1]?.note.beam !== beam && notes[last + 1]?.note.beam !== beam;
}

const hasInner = (line: SheetLine, first: number, last: number): boolean =>
  line.tuplets.some((tuplet) => tuplet.inner && tuplet.first >= first && tuplet.last <= last);

interface DrawnNote {
  readonly note: StaveNote;
  readonly placed: PlacedNote;
  readonly stave: Stave;
  readonly options: StaffOptions;
}

function drawNote(pen: Pen, drawn: DrawnNote): void {
  const { note, placed } = drawn;
  const heads = headsOf(placed.note);
  pen.headTags(
    heads.map(({ cycle, stroke, drum }) => `class="stroke" data-cycle="${cycle}" data-index="${stroke.index}" data-drum="${escaped(drum.name)}"`),
  );
  note.drawWithStyle();
  pen.headTags([]);
  heads.forEach(({ stroke }, i) => {
    const y = note.getYs()[i]!;
    if (stroke.graces.length > 0) drawGraces(pen, drawn, i);
    if (stroke.ghost) drawParentheses(pen, note.noteHeads[i]!.getAbsoluteX(), y);
    if (stroke.buzz) centred(pen, GLYPH.buzz, { x: note.getStemX(), y: stemMiddle(note) });
    if (stroke.diddle) centred(pen, GLYPH.slash, { x: note.getStemX(), y: stemMiddle(note) });
  });
  if (heads.some(({ stroke }) => stroke.accent)) centred(pen, GLYPH.accent, { x: placed.x + HEAD / 2, y: drawn.options.accentY + 5 });
}

/** Between the highest head and the lowest beam or flag. */
const stemMiddle = (note: StaveNote): number => Math.min(...note.getYs()) - 13;

/** A glyph with its middle at x, y. */
function centred(pen: Pen, code: string, { x, y }: { readonly x: number; readonly y: number }): void {
  const [left, top, right, bottom] = glyphBox(code);
  pen.glyph(code, { x: x - (left + right) / 2, y: y - (top + bottom) / 2 });
}

function drawParentheses(pen: Pen, x: number, y: number): void {
  const [left, , right] = glyphBox(GLYPH.parenthesisLeft);
  pen.glyph(GLYPH.parenthesisLeft, { x: x - 1.5 - right, y });
  pen.glyph(GLYPH.parenthesisRight, { x: x + HEAD + 1.5 - left, y });
}

/** Small notes before head `index`, slashed when single, beamed when more, slurred to their stroke. */
function drawGraces(pen: Pen, { note, placed, stave }: DrawnNote, index: number): void {
  const { stroke, drum } = headsOf(placed.note)[index]!;
  const count = stroke.graces.length;
  const room = stroke.ghost ? GRACE_PAD + 6 : GRACE_PAD;
  const graces = stroke.graces.map((_, i) => {
    const grace = new GraceNote({ keys: [keyOf(drum, 16)], duration: count === 1 ? '8' : '16', slash: count === 1, stemDirection: 1 });
    place(grace, stave, placed.x - room - (count - i) * GRACE_STEP + 2);
    fitStem(grace.getStem(), drum.head);
    return grace.setContext(pen.context);
  });
  const beam = count > 1 ? graceBeam(graces) : null;
  for (const grace of graces) grace.drawWithStyle();
  beam?.setContext(pen.context).drawWithStyle();
  const slur = new StaveTie({ firstNote: graces[0]!, lastNote: note, firstIndexes: [0], lastIndexes: [index] });
  slur.renderOptions.cp1 = 6;
  slur.renderOptions.cp2 = 8;
  slur.renderOptions.firstXShift = -5;
  slur.renderOptions.lastXShift = 4;
  slur.setDirection(1).setContext(pen.context).drawWithStyle();
}

function graceBeam(graces: GraceNote[]): Beam {
  const beam = new Beam(graces);
  beam.renderOptions.beamWidth = 3;
  beam.renderOptions.flatBeams = true;
  beam.postFormat();
  return beam;
}

/** How far above the middle line the beams of a sheet must run so that every stem has its length. */
export function beamHeight(notes: readonly WrittenNote[]): number {
  const top = Math.max(1, ...notes.flatMap((note) => headsOf(note).map(({ drum }) => drum.step)));
  const beamCount = Math.max(...notes.filter(({ beam }) => beam !== null).map(({ value }) => Math.log2(value / 4)), 1);
  return top * 5 + STEM + Math.max(0, beamCount - 2) * STEM_PER_BEAM;
}
