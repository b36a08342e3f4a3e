/** The heads of a note: which there are, how VexFlow names them, how a stem meets them. */
import { type Stave, type StaveNote, type Stem, TickContext } from 'vexflow/core';
import type { Drum, Head } from '../kit/index.ts';
import type { SheetStroke } from './items.ts';
import type { WrittenNote } from './values.ts';

/** VexFlow's own padding between the start of notes and the first. */
const VEX_PADDING = 12;

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
 * How far above the middle of the head a stem meets it, and below for stems down.
 * An x is met at its corner, a triangle at its foot.
 */
const STEM_UP: Readonly<Record<Head, number>> = { normal: 0, x: 4.4, 'circle-x': 0, diamond: 0, triangle: -4.4 };
const STEM_DOWN: Readonly<Record<Head, number>> = { normal: 0, x: 4.4, 'circle-x': 0, diamond: 0, triangle: 4.4 };

/** Strokes of a note as heads, low to high: the second of a diddle has no head of its own. */
export function headsOf(note: WrittenNote): readonly SheetStroke[] {
  return note.strokes.filter(({ stroke }) => stroke.diddle !== 'second').sort((a, b) => a.drum.step - b.drum.step);
}

/** A drum in VexFlow's key notation, for a note of this value. */
export const keyOf = ({ pitch, head }: Drum, value: number): string =>
  `${pitch[0]!.toLowerCase()}/${pitch.slice(1)}${(value < 4 ? HALF_KEYS : HEAD_KEYS)[head]}`;

/** Lets a stem meet its head where it should. */
export function fitStem(stem: Stem | undefined, head: Head): void {
  stem?.setOptions({ stemUpYOffset: STEM_UP[head], stemDownYOffset: STEM_DOWN[head] });
}

/** Whether a roll is written through a stem with flags, which then needs a longer one. */
export const isRolledFlag = ({ beam, value, strokes }: WrittenNote): boolean =>
  beam === null && value >= 8 && strokes.some(({ stroke }) => stroke.buzz || stroke.diddle === 'first');

/** Sets a note with the left of its head at x. */
export function place(note: StaveNote, stave: Stave, x: number): void {
  note.setStave(stave);
  note.setTickContext(new TickContext().setX(x - stave.getNoteStartX() - VEX_PADDING));
  note.preFormat();
}
