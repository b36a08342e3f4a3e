/** The rows under a staff: sticking letters, what is counted, stroke types. */
import { type CountCountry, countedAs, type StrokeType } from '../exercise/index.ts';
import type { SheetStroke } from './items.ts';
import { HEAD, type PlacedNote, type SheetLine } from './layout.ts';
import { num } from './marks.ts';
import { COUNT_SIZE, GRACE_LETTER_SIZE, GRACE_STEP, LETTER_LANE, LETTER_SIZE } from './parameters.ts';
import type { Pen } from './pen.ts';
import type { SheetOptions } from './sheet.ts';
import type { WrittenNote } from './values.ts';

/** Rows of letters a note needs: strokes together stand under each other, hands above feet. */
export const letterRows = (note: WrittenNote): number => (note.continued ? 0 : columnOf(note).first.length);

interface RowPlace {
  /** Baseline. */
  readonly y: number;
  readonly pxPerBeat: number;
}

/** Where letters stand, and how much larger than usual they are. */
interface LetterPlace extends RowPlace {
  readonly scale: number;
}

const scaleOf = ({ letterSize = LETTER_SIZE }: SheetOptions): number => letterSize / LETTER_SIZE;

/** Height of a row of letters, px. */
export const letterLane = (options: SheetOptions): number => LETTER_LANE * scaleOf(options);

/** Draws the letters of a line: those of the second voice `rowsAbove` rows lower. */
export function drawLetters(
  pen: Pen,
  { voices }: SheetLine,
  { y, pxPerBeat, rowsAbove, options }: RowPlace & { readonly rowsAbove: number; readonly options: SheetOptions },
): void {
  pen.open('class="letters"');
  voices.forEach(({ notes }, voice) => {
    const place = { y: y + (voice === 0 ? 0 : rowsAbove * letterLane(options)), pxPerBeat, scale: scaleOf(options) };
    for (const placed of notes) if (!placed.note.continued) drawColumn(pen, placed, place);
  });
  pen.close();
}

function drawColumn(pen: Pen, { note, x }: PlacedNote, { y, pxPerBeat, scale }: LetterPlace): void {
  const { first, second } = columnOf(note);
  const middle = x + HEAD / 2;
  const half = halfOf(note, pxPerBeat);
  first.forEach((stroke, row) => {
    const baseline = y + row * LETTER_LANE * scale;
    drawLetter(pen, stroke, { x: middle, y: baseline, scale });
    const again = second.find(({ stroke: other }) => other.at === stroke.stroke.at);
    if (again) drawLetter(pen, again, { x: middle + half, y: baseline, scale });
  });
}

/** From the first stroke of a diddle to its second, px. */
const halfOf = ({ lengthBeats }: WrittenNote, pxPerBeat: number): number => (lengthBeats.num / lengthBeats.den) * pxPerBeat * 0.5;

function drawLetter(
  pen: Pen,
  { stroke, cycle }: SheetStroke,
  { x, y, scale }: { readonly x: number; readonly y: number; readonly scale: number },
): void {
  pen.open(`data-cycle="${cycle}" data-index="${stroke.index}"`);
  pen.letters(stroke.ghost ? `(${stroke.limb})` : stroke.limb, { x, y, size: LETTER_SIZE * scale });
  pen.close();
  const graces = stroke.graces.map((hand) => hand.toLowerCase());
  graces.forEach((letter, i) => {
    pen.letters(letter, { x: x - (HEAD / 2 + 2 + (graces.length - i - 0.5) * (GRACE_STEP - 3)) * scale, y, size: GRACE_LETTER_SIZE * scale });
  });
}

/** Letters under a note: those on its onset, hands first, and the second strokes of diddles. */
function columnOf({ strokes }: WrittenNote): { readonly first: readonly SheetStroke[]; readonly second: readonly SheetStroke[] } {
  const first = strokes.filter(({ stroke }) => stroke.diddle !== 'second');
  return { first: [...first].sort((a, b) => order(a) - order(b)), second: strokes.filter(({ stroke }) => stroke.diddle === 'second') };
}

const order = ({ stroke }: SheetStroke): number => 'RLKH'.indexOf(stroke.limb);

/** What is counted aloud on every slot of a line; softer where no stroke falls. */
export function drawCounts(
  pen: Pen,
  { beats, voices }: SheetLine,
  { y, pxPerBeat, perBeat, country }: RowPlace & { readonly perBeat: number; readonly country: CountCountry },
): void {
  const played = new Set(voices.flatMap(({ notes }) => notes.filter(isPlayed).map(({ x }) => num(x))));
  pen.open('class="counts"');
  for (const { beat, x } of beats) {
    for (let within = 0; within < perBeat; within++) {
      const left = x + (within / perBeat) * pxPerBeat;
      const text = countedAs({ beat, within, perBeat }, country);
      pen.letters(text, { x: left + HEAD / 2, y, size: COUNT_SIZE, soft: !played.has(num(left)) });
    }
  }
  pen.close();
}

const isPlayed = ({ note }: PlacedNote): boolean => note.strokes.length > 0 && !note.continued;

const TYPE_LETTERS: Readonly<Record<StrokeType, string>> = { full: 'F', down: 'D', tap: 'T', up: 'U' };

/** Full, down, tap, up under every stroke of a hand. */
export function drawTypes(
  pen: Pen,
  { voices }: SheetLine,
  { y, pxPerBeat, types }: RowPlace & { readonly types: readonly (StrokeType | null)[] },
): void {
  pen.open('class="types"');
  for (const { note, x } of voices.flatMap(({ notes }) => notes)) {
    if (note.continued) continue;
    const hands = note.strokes.filter(({ stroke }) => types[stroke.index]);
    const at = { x: x + HEAD / 2, y, size: COUNT_SIZE };
    const [second, first] = [true, false].map((wanted) => hands.filter(({ stroke }) => (stroke.diddle === 'second') === wanted).map(letterOf(types)));
    if (first!.length > 0) pen.letters(first!.join(''), at);
    if (second!.length > 0) pen.letters(second!.join(''), { ...at, x: at.x + halfOf(note, pxPerBeat) });
  }
  pen.close();
}

const letterOf =
  (types: readonly (StrokeType | null)[]) =>
  ({ stroke }: SheetStroke): string =>
    TYPE_LETTERS[types[stroke.index]!];
