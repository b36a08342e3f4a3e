/** Engraves an exercise: standard notation with its sticking, as SVG text and the place of every stroke. */
import type { ExerciseContent } from '../exercise/index.ts';
import { type Drum, drumsOf } from '../kit/index.ts';
import { HEAD, type Layout, layOut, type PlacedNote, roomAfter, roomBefore } from './layout.ts';
import { ACCENT_LANE, LEGEND_LANE, LETTER_LANE, MARGIN, SPACE, TUPLET_LANE, WIDTH } from './parameters.ts';
import { escaped, makePen, num, type Pen, prepareVexFlow } from './pen.ts';
import { type Written, writeOut } from './rhythm.ts';
import { drawContinues, drawLegend, drawLetters, letterRows } from './rows.ts';
import type { Engraving, SheetOptions, StrokeFrame } from './sheet.ts';
import { beamHeight, drawStaff, headsOf, noteStartX } from './staff.ts';

/**
 * Engraves a content. Pure: the same content and options give the same bytes everywhere.
 * @param content of an exercise; its sticking is canonical.
 * @param options see SheetOptions.
 */
export function engrave(content: ExerciseContent, options: SheetOptions = {}): Engraving {
  prepareVexFlow();
  const written = writeOut(content, options.barLimit);
  const { meter } = content;
  const layout = layOut(written.bars, {
    beatsPerBar: meter.beats,
    widthPx: options.widthPx ?? WIDTH,
    noteStartX: noteStartX(meter),
  });
  const lanes = lanesOf(written, options);
  const pen = makePen();
  layout.lines.forEach((_, i) => {
    drawLine(pen, { layout, lanes, content, written, options }, i);
  });
  const heightPx = drawFoot(pen, { layout, lanes, content, written, options });
  // A line that fills the width exactly must not become a pixel wider by rounding.
  const widthPx = Math.ceil(layout.widthPx - 1e-6);
  return {
    svg: wrap(pen.svg(), { widthPx, heightPx: Math.ceil(heightPx), label: options.label ?? content.sticking }),
    strokes: framesOf(layout, lanes),
    widthPx,
    heightPx: Math.ceil(heightPx),
    lineCount: layout.lines.length,
    linePx: lanes.height,
    barsShown: written.bars.length,
    barsInAll: written.barsInAll,
  };
}

/** The SVG text alone. */
export const engraveSvg = (content: ExerciseContent, options: SheetOptions = {}): string => engrave(content, options).svg;

const isWhole = ({ bars, barsInAll }: Written): boolean => bars.length === barsInAll;

/** What stands under the last line: the legend, and that the sheet stops early. Gives the height of the whole sheet. */
function drawFoot(pen: Pen, { layout, lanes, content, written, options }: Drawing): number {
  const linesPx = layout.lines.length * lanes.height + MARGIN;
  const legend = options.legend === false ? [] : legendOf(content);
  if (legend.length === 0 && isWhole(written)) return linesPx;
  const y = linesPx + LEGEND_LANE - MARGIN + 2;
  if (legend.length > 0) drawLegend(pen, legend, { x: MARGIN, y });
  if (!isWhole(written)) drawContinues(pen, { shown: written.bars.length, all: written.barsInAll }, { x: layout.widthPx - MARGIN, y });
  return linesPx + LEGEND_LANE + 8;
}

/** The drums of a content, once each, in the order they come. */
const legendOf = (content: ExerciseContent): readonly Drum[] => [
  ...new Map([...drumsOf(content.surfaces).values()].map((drum) => [drum.name, drum])).values(),
];

/** Heights within a line, px from its top. */
interface Lanes {
  readonly tupletY: number;
  readonly accentY: number;
  readonly beamY: number;
  readonly staffY: number;
  readonly lettersY: number;
  readonly height: number;
}

/** Every line of a sheet has the same lanes, and only those the sheet needs. */
function lanesOf({ bars }: Written, options: SheetOptions): Lanes {
  const notes = bars.flatMap((bar) => bar.notes);
  const tuplets = bars.flatMap((bar) => bar.tuplets);
  const tupletRows = tuplets.length === 0 ? 0 : tuplets.some(({ inner }) => inner) ? 2 : 1;
  const accents = notes.some(({ strokes }) => strokes.some(({ stroke }) => stroke.accent));
  const tupletY = MARGIN + tupletRows * TUPLET_LANE - (tupletRows > 0 ? TUPLET_LANE / 2 : 0);
  const accentY = MARGIN + tupletRows * TUPLET_LANE;
  const beamY = accentY + (accents ? ACCENT_LANE : 0) + 2;
  const staffY = beamY + beamHeight(notes) - 2 * SPACE;
  const lowest = Math.min(-4, ...notes.flatMap((note) => headsOf(note).map(({ drum }) => drum.step)));
  const below = staffY + 2 * SPACE - lowest * (SPACE / 2) + SPACE / 2;
  const rows = options.letters === false ? 0 : Math.max(1, ...notes.map(letterRows));
  const graces = notes.some(({ strokes }) => strokes.some(({ stroke }) => stroke.graces.length > 0));
  const lettersY = Math.max(below, staffY + 4 * SPACE + (graces ? 4 : 0)) + LETTER_LANE;
  return { tupletY, accentY, beamY, staffY, lettersY, height: lettersY + Math.max(0, rows - 1) * LETTER_LANE + SPACE };
}

interface Drawing {
  readonly layout: Layout;
  readonly lanes: Lanes;
  readonly content: ExerciseContent;
  readonly written: Written;
  readonly options: SheetOptions;
}

function drawLine(pen: Pen, { layout, lanes, content, written, options }: Drawing, index: number): void {
  const line = layout.lines[index]!;
  const top = index * lanes.height;
  const last = index === layout.lines.length - 1;
  drawStaff(pen, line, {
    meter: content.meter,
    first: index === 0,
    x: MARGIN,
    y: top + lanes.staffY,
    beamY: top + lanes.beamY,
    accentY: top + lanes.accentY,
    tupletY: top + lanes.tupletY,
    tupletLane: TUPLET_LANE,
    end: last && isWhole(written) ? 'repeat' : line.endsWithBar ? 'bar' : 'open',
  });
  if (options.letters !== false) drawLetters(pen, line.notes, { y: top + lanes.lettersY, pxPerBeat: layout.pxPerBeat });
}

function framesOf(layout: Layout, lanes: Lanes): readonly StrokeFrame[] {
  return layout.lines.flatMap(({ notes }, line) => notes.flatMap((placed) => noteFrames(placed, { line, lanes, pxPerBeat: layout.pxPerBeat })));
}

function noteFrames(
  { note, x }: PlacedNote,
  options: { readonly line: number; readonly lanes: Lanes; readonly pxPerBeat: number },
): readonly StrokeFrame[] {
  const { line, lanes, pxPerBeat } = options;
  const y = line * lanes.height + MARGIN / 2;
  const height = lanes.height - MARGIN;
  const half = (note.lengthBeats.num / note.lengthBeats.den) * pxPerBeat * 0.5;
  return note.strokes.map(({ cycle, stroke }) => {
    const second = stroke.diddle === 'second';
    const left = second ? x + half - 1 : x - roomBefore(note) - 3;
    const right = second ? x + half + HEAD : x + (stroke.diddle ? HEAD : roomAfter(note)) + 3;
    return { cycle, index: stroke.index, line, x: left, y, width: right - left, height };
  });
}

function wrap(body: string, { widthPx, heightPx, label }: { readonly widthPx: number; readonly heightPx: number; readonly label: string }): string {
  const said = escaped(label);
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${num(widthPx)} ${num(heightPx)}" width="${num(widthPx)}" height="${num(heightPx)}" role="img" aria-label="${said}" fill="currentColor" font-family="system-ui, sans-serif">
<title>${said}</title>
${body}
</svg>
`;
}
