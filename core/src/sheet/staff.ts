/** One line of a sheet through VexFlow: staff, heads, stems, flags, beams, brackets, ties, at the places the layout gave. */
import { Barline, BarlineType, Beam, Stave, StaveNote, StaveTie, Stem, Tuplet } from 'vexflow/core';
import type { Meter } from '../exercise/index.ts';
import { fitStem, headsOf, isRolledFlag, keyOf, place } from './heads.ts';
import type { PlacedNote, PlacedVoice, SheetLine } from './layout.ts';
import { ROLLED_FLAG_STEM, SPACE, STEM, STEM_PER_BEAM, TUPLET_LANE } from './parameters.ts';
import { glyphBox, type Pen } from './pen.ts';
import { drawNote } from './signs.ts';
import type { WrittenNote, WrittenTuplet } from './values.ts';

/** Where what belongs to a voice stands. */
export interface VoiceLanes {
  /** Outer edge of the beams: the upper one of stems up, the lower one of stems down. */
  readonly beamY: number;
  /** Upper edge of the accents. */
  readonly accentY: number;
  /** Middle of the tuplet numbers nearest to the notes. */
  readonly tupletY: number;
}

/** What a line needs to be drawn. */
export interface StaffOptions {
  readonly meter: Meter;
  readonly first: boolean;
  /** Left end of the staff. */
  readonly x: number;
  /** Top staff line. */
  readonly y: number;
  readonly up: VoiceLanes;
  readonly down: VoiceLanes;
  readonly end: 'repeat' | 'bar' | 'open';
}

/** Lines rests stand on, 3 the middle one: apart where there are two voices, so that the tail of a sixteenth rest ends clear above the kick, and a quarter rest begins clear below the floor tom. */
const REST_LINE = { alone: 3, up: 5, down: 0 } as const;

/** A rest for a whole bar hangs from a line of the staff. */
const WHOLE_REST_LINE = { alone: 4, up: 5, down: 2 } as const;

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
  for (const x of line.repeats) drawRepeat(pen, { x, y: options.y + 2 * SPACE });
  pen.close();
  const alone = line.voices.length === 1;
  const shared = alone ? new Set<string>() : sharedRests(line.voices);
  for (const voice of line.voices) drawVoice(pen, voice, { stave, lanes: options[voice.stem], alone, shared });
}

/** Rests that both voices have: one is drawn for both, in the middle. */
function sharedRests(voices: readonly PlacedVoice[]): ReadonlySet<string> {
  const [first, second] = voices.map(({ notes }) => new Set(notes.filter(({ note }) => note.strokes.length === 0).map(restKey)));
  return new Set([...first!].filter((key) => second!.has(key)));
}

const restKey = ({ note, x }: PlacedNote): string => `${note.value} at ${x.toFixed(2)}`;

interface VoicePlace {
  readonly stave: Stave;
  readonly lanes: VoiceLanes;
  /** The only voice of its line. */
  readonly alone: boolean;
  readonly shared: ReadonlySet<string>;
}

function drawVoice(pen: Pen, voice: PlacedVoice, { stave, lanes, alone, shared }: VoicePlace): void {
  const lineOf = (rest: StaveNote, where: keyof typeof REST_LINE) => (rest.getDuration() === '1' ? WHOLE_REST_LINE : REST_LINE)[where];
  const notes = voice.notes.map((placed) => noteOn(pen, { stave, placed, stem: voice.stem }));
  const beams = beamsOf(voice, notes, lanes.beamY);
  const tuplets = tupletsOf(voice, notes, lanes.tupletY);
  const isShared = voice.notes.map((placed) => placed.note.strokes.length === 0 && shared.has(restKey(placed)));
  notes.forEach((note, i) => {
    if (note.isRest()) note.setKeyLine(0, lineOf(note, isShared[i] || alone ? 'alone' : voice.stem));
    if (isShared[i] && voice.stem === 'down') return;
    drawNote(pen, { note, placed: voice.notes[i]!, stave, accentY: lanes.accentY, stem: voice.stem });
  });
  for (const drawn of [...beams, ...tuplets, ...tiesOf(voice, notes)]) drawn.setContext(pen.context).drawWithStyle();
}

function drawBarLine(stave: Stave, x: number): void {
  new Barline(BarlineType.SINGLE).setStave(stave).setX(x).draw();
}

/** The bar before once more, around the middle line. */
function drawRepeat(pen: Pen, { x, y }: { readonly x: number; readonly y: number }): void {
  const [left, top, right, bottom] = glyphBox(REPEAT);
  pen.glyph(REPEAT, { x: x - (left + right) / 2, y: y - (top + bottom) / 2 });
}

const REPEAT = '\ue500';

interface NotePlace {
  readonly stave: Stave;
  readonly placed: PlacedNote;
  readonly stem: 'up' | 'down';
}

const STEM_DIRECTION = { up: 1, down: -1 } as const;

function noteOn(pen: Pen, { stave, placed: { note, x }, stem }: NotePlace): StaveNote {
  const heads = headsOf(note);
  const rest = heads.length === 0;
  const drawn = new StaveNote({
    keys: rest ? ['b/4'] : heads.map(({ drum }) => keyOf(drum, note.value)),
    duration: `${note.value}${rest ? 'r' : ''}`,
    stemDirection: STEM_DIRECTION[stem],
  });
  place(drawn, stave, x);
  drawn.setContext(pen.context);
  if (isRolledFlag(note))
    drawn
      .setStemLength(Stem.HEIGHT + ROLLED_FLAG_STEM)
      .getStem()
      ?.setExtension(ROLLED_FLAG_STEM);
  const met = stem === 'up' ? heads[0] : heads.at(-1);
  if (met) fitStem(drawn.getStem(), met.drum.head);
  return drawn;
}

function beamsOf({ notes: placed }: PlacedVoice, notes: readonly StaveNote[], beamY: number): readonly Beam[] {
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

function tupletsOf(voice: PlacedVoice, notes: readonly StaveNote[], tupletY: number): readonly Tuplet[] {
  const outwards = voice.stem === 'up' ? -TUPLET_LANE : TUPLET_LANE;
  return voice.tuplets.map((written) => {
    const inside = notes.slice(written.first, written.last + 1);
    const bracketed = !isOneBeam(voice, written);
    const ratioed = written.inTimeOf > written.count;
    const location = voice.stem === 'up' ? Tuplet.LOCATION_TOP : Tuplet.LOCATION_BOTTOM;
    const tuplet = new Tuplet(inside, { numNotes: written.count, notesOccupied: written.inTimeOf, bracketed, ratioed, location });
    const lane = hasInner(voice, written.first, written.last) && !written.inner ? 1 : 0;
    tuplet.getYPosition = () => tupletY + lane * outwards;
    return tuplet;
  });
}

/** Curves from notes that sound on; one that leaves its line ends open, and begins open on the next. */
function tiesOf({ notes: placed, stem }: PlacedVoice, notes: readonly StaveNote[]): readonly StaveTie[] {
  const ends = placed.flatMap(({ note }, i): readonly (readonly [StaveNote | null, StaveNote | null])[] => {
    const from = note.tied ? [[notes[i]!, notes[i + 1] ?? null] as const] : [];
    return note.continued && i === 0 ? [[null, notes[0]!], ...from] : from;
  });
  return ends.map(([firstNote, lastNote]) => {
    const heads = (firstNote ?? lastNote)!.keys.map((_, i) => i);
    const tie = new StaveTie({ firstNote, lastNote, firstIndexes: heads, lastIndexes: heads });
    return tie.setDirection(-STEM_DIRECTION[stem]);
  });
}

/** Whether a tuplet is exactly the notes of one beam, so that its number alone says what it covers. */
function isOneBeam({ notes }: PlacedVoice, { first, last }: WrittenTuplet): boolean {
  const beam = notes[first]!.note.beam;
  const inside = notes.slice(first, last + 1).every(({ note }) => note.beam === beam);
  return beam !== null && inside && notes[first - 1]?.note.beam !== beam && notes[last + 1]?.note.beam !== beam;
}

const hasInner = (voice: PlacedVoice, first: number, last: number): boolean =>
  voice.tuplets.some((tuplet) => tuplet.inner && tuplet.first >= first && tuplet.last <= last);

/** How far from the middle line the beams of a voice must run so that every stem has its length. */
export function beamReach(notes: readonly WrittenNote[], stem: 'up' | 'down'): number {
  const steps = notes.flatMap((note) => headsOf(note).map(({ drum }) => (stem === 'up' ? drum.step : -drum.step)));
  const beamCount = Math.max(...notes.filter(({ beam }) => beam !== null).map(({ value }) => Math.log2(value / 4)), 1);
  const longer = Math.max(Math.max(0, beamCount - 2) * STEM_PER_BEAM, notes.some(isRolledFlag) ? ROLLED_FLAG_STEM : 0);
  return Math.max(1, ...steps) * 5 + STEM + longer;
}
