/** The notes of a voice as MusicXML: heads as chords, graces before them, beams, tuplets, ties, letters. */
import type { Meter } from '../exercise/index.ts';
import type { Drum, Head } from '../kit/index.ts';
import { add, divide, multiply, type Rational, rational, toNumber } from '../rational.ts';
import type { SheetStroke } from './items.ts';
import type { WrittenVoice } from './rhythm.ts';
import type { WrittenNote, WrittenTuplet } from './values.ts';

/** What is the same for every note of a part. */
export interface Part {
  /** Of a quarter. */
  readonly divisions: number;
  readonly meter: Meter;
  /** Id of a drum among the part's instruments. */
  readonly instrument: (drum: Drum) => string;
}

interface VoiceOptions {
  /** From 1. */
  readonly voice: number;
  readonly alone: boolean;
  readonly part: Part;
}

interface NotePlace extends VoiceOptions {
  readonly written: WrittenVoice;
  readonly at: number;
}

const HEADS: Readonly<Record<Head, string>> = { normal: 'normal', x: 'x', 'circle-x': 'circle-x', diamond: 'diamond', triangle: 'triangle' };

/** Where rests stand: as pitches of a treble clef, apart where there are two voices. */
const REST_PITCH = { up: 'D5', down: 'E4' } as const;

/** Rows of letters that a voice leaves for itself: a hand each. */
const ROWS_PER_VOICE = 2;

/** Every note and rest of a voice in a bar. */
export const voiceXml = (written: WrittenVoice, options: VoiceOptions): readonly string[] =>
  written.notes.flatMap((note, at) => noteXml(note, { ...options, written, at }));

function noteXml(note: WrittenNote, place: NotePlace): readonly string[] {
  const heads = note.strokes.filter(({ stroke }) => stroke.diddle !== 'second');
  if (heads.length === 0) return [restXml(note, place)];
  const graces = heads.flatMap((head, row) => gracesXml(head, row, place));
  return [...graces, ...heads.map((head, i) => headXml(note, { ...place, head, chord: i > 0, heads }))];
}

/** Length in divisions. */
const durationOf = ({ lengthBeats }: WrittenNote, { divisions, meter }: Part): number =>
  (lengthBeats.num * 4 * divisions) / (lengthBeats.den * meter.unit);

const TYPES: Readonly<Record<number, string>> = { 1: 'whole', 2: 'half', 4: 'quarter', 8: 'eighth' };
const typeOf = (value: number): string => TYPES[value] ?? (value === 32 ? '32nd' : `${value}th`);

function restXml(note: WrittenNote, place: NotePlace): string {
  const { part, voice, alone, written } = place;
  const [step, octave] = REST_PITCH[written.stem];
  const where = alone ? '' : `<display-step>${step}</display-step><display-octave>${octave}</display-octave>`;
  const whole = note.value === 1;
  return [
    '<note>',
    whole ? `<rest measure="yes">${where}</rest>` : `<rest>${where}</rest>`,
    `<duration>${durationOf(note, part)}</duration>`,
    `<voice>${voice}</voice>`,
    `<type>${typeOf(note.value)}</type>`,
    modification(place),
    notations(tupletsXml(place)),
    '</note>',
  ].join('');
}

interface HeadPlace extends NotePlace {
  readonly head: SheetStroke;
  readonly chord: boolean;
  /** All heads of the note. */
  readonly heads: readonly SheetStroke[];
}

function headXml(note: WrittenNote, place: HeadPlace): string {
  const { head, chord, part, voice, written, heads } = place;
  return [
    '<note>',
    chord ? '<chord/>' : '',
    unpitched(head.drum),
    `<duration>${durationOf(note, part)}</duration>`,
    note.continued ? '<tie type="stop"/>' : '',
    note.tied ? '<tie type="start"/>' : '',
    `<instrument id="${part.instrument(head.drum)}"/>`,
    `<voice>${voice}</voice>`,
    `<type>${typeOf(note.value)}</type>`,
    modification(place),
    `<stem>${written.stem}</stem>`,
    noteheadXml(head),
    chord ? '' : beamsXml(place),
    notations([
      note.continued ? '<tied type="stop"/>' : '',
      note.tied ? '<tied type="start"/>' : '',
      head.stroke.graces.length > 0 ? '<slur type="stop"/>' : '',
      ...(chord ? [] : tupletsXml(place)),
      tremoloXml(head),
      head.stroke.accent ? '<articulations><accent/></articulations>' : '',
    ]),
    chord || note.continued ? '' : lyricsXml(heads, place),
    '</note>',
  ].join('');
}

const unpitched = ({ pitch }: Drum): string =>
  `<unpitched><display-step>${pitch[0]}</display-step><display-octave>${pitch.slice(1)}</display-octave></unpitched>`;

function noteheadXml({ drum, stroke }: SheetStroke): string {
  if (drum.head === 'normal' && !stroke.ghost) return '';
  return `<notehead${stroke.ghost ? ' parentheses="yes"' : ''}>${HEADS[drum.head]}</notehead>`;
}

function tremoloXml({ stroke }: SheetStroke): string {
  if (stroke.buzz) return '<ornaments><tremolo type="unmeasured">0</tremolo></ornaments>';
  return stroke.diddle ? '<ornaments><tremolo type="single">1</tremolo></ornaments>' : '';
}

const notations = (inside: readonly string[]): string => (inside.every((each) => each === '') ? '' : `<notations>${inside.join('')}</notations>`);

/** The small notes before a head, one slashed, more beamed. */
function gracesXml({ drum, stroke }: SheetStroke, row: number, { part, voice, written }: NotePlace): readonly string[] {
  const { length } = stroke.graces;
  return stroke.graces.map((hand, i) =>
    [
      '<note>',
      length === 1 ? '<grace slash="yes"/>' : '<grace/>',
      unpitched(drum),
      `<instrument id="${part.instrument(drum)}"/>`,
      `<voice>${voice}</voice>`,
      `<type>${length === 1 ? 'eighth' : '16th'}</type>`,
      `<stem>${written.stem}</stem>`,
      drum.head === 'normal' ? '' : `<notehead>${HEADS[drum.head]}</notehead>`,
      length > 1 ? graceBeams(i, length) : '',
      i === 0 ? notations(['<slur type="start"/>']) : '',
      lyric(hand.toLowerCase(), row + 1 + (voice - 1) * ROWS_PER_VOICE),
      '</note>',
    ].join(''),
  );
}

function graceBeams(at: number, length: number): string {
  const says = at === 0 ? 'begin' : at === length - 1 ? 'end' : 'continue';
  return `<beam number="1">${says}</beam><beam number="2">${says}</beam>`;
}

const tupletsAt = ({ written, at }: NotePlace): readonly WrittenTuplet[] =>
  written.tuplets.filter(({ first, last }) => first <= at && at <= last).sort((a, b) => Number(a.inner) - Number(b.inner));

/** All brackets over a note as one ratio. */
function modification(place: NotePlace): string {
  const ratio = tupletsAt(place).reduce<Rational>((all, { count, inTimeOf }) => multiply(all, rational(count, inTimeOf)), rational(1));
  if (ratio.num === ratio.den) return '';
  return `<time-modification><actual-notes>${ratio.num}</actual-notes><normal-notes>${ratio.den}</normal-notes></time-modification>`;
}

/** Brackets that begin or end at a note: the outer one begins first and ends last. */
function tupletsXml(place: NotePlace): readonly string[] {
  const all = tupletsAt(place);
  const starts = all.flatMap((tuplet, i) => (tuplet.first === place.at ? [startXml(all, i, place)] : []));
  const stops = all.flatMap((tuplet, i) => (tuplet.last === place.at ? [`<tuplet type="stop" number="${i + 1}"/>`] : []));
  return [...starts, ...stops.reverse()];
}

function startXml(all: readonly WrittenTuplet[], index: number, place: NotePlace): string {
  const tuplet = all[index]!;
  const outer = all.slice(0, index).reduce<Rational>((left, { count, inTimeOf }) => multiply(left, rational(count, inTimeOf)), rational(1));
  const unit = unitOf(tuplet, place, outer);
  // A part of a group that a bar line cut is no whole number of any value: its ratio stands alone.
  const type = Number.isInteger(Math.log2(unit)) ? `<tuplet-type>${typeOf(unit)}</tuplet-type>` : '';
  const side = (name: string, count: number) => `<tuplet-${name}><tuplet-number>${count}</tuplet-number>${type}</tuplet-${name}>`;
  return `<tuplet type="start" number="${index + 1}" bracket="yes">${side('actual', tuplet.count)}${side('normal', tuplet.inTimeOf)}</tuplet>`;
}

/** Value that a bracket counts in: `inTimeOf` of it fill the time of its notes as the outer bracket alone leaves it. */
function unitOf({ first, last, inTimeOf }: WrittenTuplet, { written: { notes }, part }: NotePlace, outer: Rational): number {
  const length = notes.slice(first, last + 1).reduce((sum, { lengthBeats }) => add(sum, lengthBeats), rational(0));
  return toNumber(divide(rational(inTimeOf * part.meter.unit), multiply(length, outer)));
}

/** Beams of a note by level; a level that only this note has is a hook towards its neighbour. */
function beamsXml({ written: { notes }, at }: NotePlace): string {
  const note = notes[at]!;
  if (note.beam === null) return '';
  return Array.from({ length: Math.log2(note.value / 4) }, (_, i) => {
    const level = i + 1;
    const joins = (other: WrittenNote | undefined) => other?.beam === note.beam && other.value >= 2 ** (level + 2);
    const [before, after] = [joins(notes[at - 1]), joins(notes[at + 1])];
    const hook = notes[at - 1]?.beam === note.beam ? 'backward hook' : 'forward hook';
    const says = before ? (after ? 'continue' : 'end') : after ? 'begin' : hook;
    return `<beam number="${level}">${says}</beam>`;
  }).join('');
}

/** Letters of the limbs, those together under each other, hands first; both strokes of a diddle in one. */
function lyricsXml(heads: readonly SheetStroke[], { voice }: NotePlace): string {
  const sorted = [...heads].sort((a, b) => 'RLKH'.indexOf(a.stroke.limb) - 'RLKH'.indexOf(b.stroke.limb));
  return sorted
    .map(({ stroke }, row) => {
      const letters = stroke.diddle ? stroke.limb.repeat(2) : stroke.limb;
      return lyric(stroke.ghost ? `(${letters})` : letters, row + 1 + (voice - 1) * ROWS_PER_VOICE);
    })
    .join('');
}

const lyric = (text: string, row: number): string => `<lyric number="${row}"><syllabic>single</syllabic><text>${text}</text></lyric>`;
