/** What stands at the heads of a note: graces, parentheses, slashes, accents. */

import { Beam, GraceNote, type Stave, type StaveNote, StaveTie } from 'vexflow/core';
import { escaped } from '../markup.ts';
import { fitStem, headsOf, keyOf, place } from './heads.ts';
import { HEAD, type PlacedNote } from './layout.ts';
import { GRACE_PAD, GRACE_STEP } from './parameters.ts';
import { glyphBox, type Pen } from './pen.ts';

const GLYPH = {
  parenthesisLeft: '\ue0f5',
  parenthesisRight: '\ue0f6',
  accentAbove: '\ue4a0',
  accentBelow: '\ue4a1',
  slash: '\ue220',
  buzz: '\ue22a',
} as const;

/** A note that VexFlow has placed. */
export interface DrawnNote {
  readonly note: StaveNote;
  readonly placed: PlacedNote;
  readonly stave: Stave;
  /** Upper edge of the accents of its voice, and which way its stems go. */
  readonly accentY: number;
  readonly stem: 'up' | 'down';
}

/** Draws a note with everything that belongs to its heads. */
export function drawNote(pen: Pen, drawn: DrawnNote): void {
  const { note, placed, stem, accentY } = drawn;
  const heads = headsOf(placed.note);
  // What sounds on from a tie is no stroke, and nothing may be looked for there.
  if (!placed.note.continued) pen.headTags(heads.map(({ cycle, stroke, drum }) => tagOf(cycle, stroke.index, drum.name)));
  note.drawWithStyle();
  pen.headTags([]);
  heads.forEach(({ stroke }, i) => {
    const y = note.getYs()[i]!;
    if (stroke.graces.length > 0) drawGraces(pen, drawn, i);
    if (stroke.ghost) drawParentheses(pen, note.noteHeads[i]!.getAbsoluteX(), y);
    if (stroke.buzz) centred(pen, GLYPH.buzz, { x: note.getStemX(), y: stemMiddle(drawn) });
    if (stroke.diddle) centred(pen, GLYPH.slash, { x: note.getStemX(), y: stemMiddle(drawn) });
  });
  if (!heads.some(({ stroke }) => stroke.accent)) return;
  centred(pen, stem === 'up' ? GLYPH.accentAbove : GLYPH.accentBelow, { x: placed.x + HEAD / 2, y: accentY + 5 });
}

const tagOf = (cycle: number, index: number, drum: string): string =>
  `class="stroke" data-cycle="${cycle}" data-index="${index}" data-drum="${escaped(drum)}"`;

/** Between the outer head and the nearest beam or flag. */
const stemMiddle = ({ note, stem }: DrawnNote): number => (stem === 'up' ? Math.min(...note.getYs()) - 13 : Math.max(...note.getYs()) + 13);

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
