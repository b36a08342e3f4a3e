/** Engraves an exercise: standard notation with its sticking, as SVG text and the place of every stroke. */

import { type ExerciseContent, strokeTypes } from '../exercise/index.ts';
import { type Drum, drumsOf } from '../kit/index.ts';
import { escaped } from '../markup.ts';
import { drawContinues, drawLegend, type Legend, legendOf } from './foot.ts';
import { type Lanes, lanesOf } from './lanes.ts';
import { HEAD, type Layout, layOut, type PlacedNote, roomAfter, roomBefore, type SheetLine } from './layout.ts';
import { num, svgOf } from './marks.ts';
import { LEGEND_LANE, MARGIN, WIDTH } from './parameters.ts';
import { makePen, type Pen } from './pen.ts';
import { type Written, withRepeats, writeOut } from './rhythm.ts';
import { drawCounts, drawLetters, drawTypes } from './rows.ts';
import { prepareVexFlow } from './ruler.ts';
import type { DrawnSheet, Engraving, SheetOptions, StrokeFrame } from './sheet.ts';
import { drawStaff, noteStartX } from './staff.ts';

/**
 * Engraves a content. Pure: the same content and options give the same bytes everywhere.
 * @param content of an exercise; its sticking is canonical.
 * @param options see SheetOptions.
 */
export function engrave(content: ExerciseContent, options: SheetOptions = {}): Engraving {
  const { marks, ...sheet } = drawSheet(content, options);
  return { ...sheet, svg: wrap(svgOf(marks), { ...sheet, label: options.label ?? content.sticking }) };
}

/** The SVG text alone. */
export const engraveSvg = (content: ExerciseContent, options: SheetOptions = {}): string => engrave(content, options).svg;

/** The sheet as marks, for whoever draws them on something else. */
export function drawSheet(content: ExerciseContent, options: SheetOptions = {}): DrawnSheet {
  prepareVexFlow();
  const all = writeOut(content, options.barLimit);
  const written = options.barRepeats ? withRepeats(all) : all;
  const { meter } = content;
  const layout = layOut(written.bars, {
    beatsPerBar: meter.beats,
    widthPx: options.widthPx ?? WIDTH,
    noteStartX: noteStartX(meter),
  });
  const drawing: Drawing = { layout, lanes: lanesOf(written, options), content, written, options };
  const pen = makePen();
  layout.lines.forEach((_, i) => {
    drawLine(pen, drawing, i);
  });
  const heightPx = drawFoot(pen, drawing);
  return {
    marks: pen.marks(),
    strokes: framesOf(drawing),
    // A line that fills the width exactly must not become a pixel wider by rounding.
    widthPx: Math.ceil(layout.widthPx - 1e-6),
    heightPx: Math.ceil(heightPx),
    lineCount: layout.lines.length,
    linePx: drawing.lanes.height,
    barsShown: written.bars.length,
    barsInAll: written.barsInAll,
  };
}

interface Drawing {
  readonly layout: Layout;
  readonly lanes: Lanes;
  readonly content: ExerciseContent;
  readonly written: Written;
  readonly options: SheetOptions;
}

const isWhole = ({ bars, barsInAll }: Written): boolean => bars.length === barsInAll;

/** What stands under the last line: the legend, and that the sheet stops early. Gives the height of the whole sheet. */
function drawFoot(pen: Pen, { layout, lanes, content, written, options }: Drawing): number {
  const linesPx = layout.lines.length * lanes.height + MARGIN;
  const legend: Legend = legendOf(options.legend === false ? [] : drumsIn(content), layout.widthPx - 2 * MARGIN - (isWhole(written) ? 0 : CONTINUES));
  if (legend.rows === 0 && isWhole(written)) return linesPx;
  const y = linesPx + LEGEND_LANE - MARGIN + 2;
  if (legend.rows > 0) drawLegend(pen, legend, { x: MARGIN, y });
  if (!isWhole(written)) drawContinues(pen, { shown: written.bars.length, all: written.barsInAll }, { x: layout.widthPx - MARGIN, y });
  return linesPx + Math.max(1, legend.rows) * LEGEND_LANE + 8;
}

/** Room for the words that a sheet stops early, px. */
const CONTINUES = 70;

/** The drums of a content, once each, in the order they come. */
const drumsIn = (content: ExerciseContent): readonly Drum[] => [
  ...new Map([...drumsOf(content.surfaces).values()].map((drum) => [drum.name, drum])).values(),
];

function drawLine(pen: Pen, { layout, lanes, content, written, options }: Drawing, index: number): void {
  const line = layout.lines[index]!;
  const top = index * lanes.height;
  const last = index === layout.lines.length - 1;
  drawStaff(pen, line, {
    meter: content.meter,
    first: index === 0,
    x: MARGIN,
    y: top + lanes.staffY,
    up: lowered(lanes.up, top),
    down: lowered(lanes.down, top),
    end: last && isWhole(written) ? 'repeat' : line.endsWithBar ? 'bar' : 'open',
  });
  drawRows(pen, line, { layout, lanes, content, options, top });
}

const lowered = ({ beamY, accentY, tupletY }: Lanes['up'], top: number): Lanes['up'] => ({
  beamY: beamY + top,
  accentY: accentY + top,
  tupletY: tupletY + top,
});

/** Letters, stroke types and counting of a line, as far as they are asked for. */
function drawRows(pen: Pen, line: SheetLine, { layout, lanes, content, options, top }: Omit<Drawing, 'written'> & { readonly top: number }): void {
  const { pxPerBeat } = layout;
  if (options.letters !== false) drawLetters(pen, line, { y: top + lanes.lettersY, pxPerBeat, rowsAbove: lanes.rowsAbove, options });
  if (options.strokeTypes) drawTypes(pen, line, { y: top + lanes.typesY, pxPerBeat, types: strokeTypes(content) });
  if (options.counts) drawCounts(pen, line, { y: top + lanes.countsY, pxPerBeat, perBeat: content.perBeat, country: options.counts });
}

/** The frames of every stroke, in order of time; strokes of two voices at once hands first. */
function framesOf({ layout, lanes }: Drawing): readonly StrokeFrame[] {
  return layout.lines.flatMap(({ voices }, line) =>
    voices
      .flatMap(({ notes }) => notes)
      .filter(({ note }) => !note.continued)
      .flatMap((placed) => noteFrames(placed, { line, lanes, pxPerBeat: layout.pxPerBeat }))
      .sort((a, b) => a.cycle - b.cycle || a.index - b.index),
  );
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
