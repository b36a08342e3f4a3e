/** The rows under a staff: sticking letters, and the legend of drums. */
import type { Drum } from '../kit/index.ts';
import type { SheetStroke } from './items.ts';
import { HEAD, type PlacedNote } from './layout.ts';
import { GRACE_LETTER_SIZE, GRACE_STEP, LETTER_LANE, LETTER_SIZE, SPACE } from './parameters.ts';
import { num, type Pen } from './pen.ts';
import { HEAD_GLYPHS } from './staff.ts';
import type { WrittenNote } from './values.ts';

/** Rows of letters a note needs: strokes together stand under each other, hands above feet. */
export const letterRows = (note: WrittenNote): number => columnsOf(note).first.length;

/** Draws the letters of a line. */
export function drawLetters(pen: Pen, notes: readonly PlacedNote[], place: { readonly y: number; readonly pxPerBeat: number }): void {
  pen.open('class="letters"');
  for (const placed of notes) drawColumn(pen, placed, place);
  pen.close();
}

function drawColumn(pen: Pen, { note, x }: PlacedNote, { y, pxPerBeat }: { readonly y: number; readonly pxPerBeat: number }): void {
  const { first, second } = columnsOf(note);
  const middle = x + HEAD / 2;
  const half = (note.lengthBeats.num / note.lengthBeats.den) * pxPerBeat * 0.5;
  first.forEach((stroke, row) => {
    const baseline = y + row * LETTER_LANE;
    drawLetter(pen, stroke, { x: middle, y: baseline });
    const again = second.find(({ stroke: other }) => other.at === stroke.stroke.at);
    if (again) drawLetter(pen, again, { x: middle + half, y: baseline });
  });
}

function drawLetter(pen: Pen, { stroke, cycle }: SheetStroke, place: { readonly x: number; readonly y: number }): void {
  pen.open(`data-cycle="${cycle}" data-index="${stroke.index}"`);
  pen.letters(stroke.ghost ? `(${stroke.limb})` : stroke.limb, { ...place, size: LETTER_SIZE });
  pen.close();
  const graces = stroke.graces.map((hand) => hand.toLowerCase());
  graces.forEach((letter, i) => {
    pen.letters(letter, { x: place.x - HEAD / 2 - 2 - (graces.length - i - 0.5) * (GRACE_STEP - 3), y: place.y, size: GRACE_LETTER_SIZE });
  });
}

/** Letters under a note: those on its onset, hands first, and the second strokes of diddles. */
function columnsOf({ strokes }: WrittenNote): { readonly first: readonly SheetStroke[]; readonly second: readonly SheetStroke[] } {
  const first = strokes.filter(({ stroke }) => stroke.diddle !== 'second');
  return { first: [...first].sort((a, b) => order(a) - order(b)), second: strokes.filter(({ stroke }) => stroke.diddle === 'second') };
}

const order = ({ stroke }: SheetStroke): number => 'RLKH'.indexOf(stroke.limb);

/** Heads and names of the drums, once each. */
export function drawLegend(pen: Pen, drums: readonly Drum[], { x, y }: { readonly x: number; readonly y: number }): void {
  pen.open('class="legend"');
  let at = x;
  for (const drum of drums) {
    drawSample(pen, { x: at, y: y - 4, step: drum.step, head: HEAD_GLYPHS[drum.head] });
    const label = drum.name.replaceAll('-', ' ');
    pen.letters(label, { x: at + 2.4 * HEAD, y, size: 12, anchor: 'start' });
    at += 2.4 * HEAD + label.length * 7 + 18;
  }
  pen.close();
}

/** A head on a small staff of its own: five lines at half size. */
function drawSample(pen: Pen, { x, y, step, head }: { readonly x: number; readonly y: number; readonly step: number; readonly head: string }): void {
  const space = SPACE / 2;
  for (let line = -2; line <= 2; line++) pen.rect({ x, y: y + line * space - 0.25, width: 2 * HEAD, height: 0.5 });
  if (Math.abs(step) > 5) pen.rect({ x: x + HEAD / 2, y: y - (step * space) / 2 - 0.25, width: HEAD, height: 0.5 });
  pen.glyph(head, { x: x + HEAD - HEAD / 4, y: y - (step * space) / 2, size: 0.5 });
}

/** The note that a sheet stops before the cycle meets the bar line: bars shown and bars in all. */
export function drawContinues(
  pen: Pen,
  text: { readonly shown: number; readonly all: number },
  place: { readonly x: number; readonly y: number },
): void {
  pen.letters(`1–${num(text.shown)} / ${num(text.all)} …`, { ...place, size: 12, anchor: 'end' });
}
