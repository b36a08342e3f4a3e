/** What stands under the last line of a sheet: the drums with their heads and names, and that the sheet stops early. */
import { type Drum, readName } from '../kit/index.ts';
import { HEAD_GLYPHS } from './heads.ts';
import { HEAD } from './layout.ts';
import { LEGEND_LANE, SPACE } from './parameters.ts';
import type { Pen } from './pen.ts';

/** Size of its letters, and what one takes at most on average, px. */
const SIZE = 12;
const LETTER_WIDTH = 7;
const SAMPLE = 2.4 * HEAD;
const APART = 18;

interface Sample {
  readonly drum: Drum;
  readonly x: number;
  readonly row: number;
}

/** A legend before it is drawn. */
export interface Legend {
  readonly samples: readonly Sample[];
  readonly rows: number;
}

/** Lays drums out in rows of at most this width. */
export function legendOf(drums: readonly Drum[], widthPx: number): Legend {
  let [x, row] = [0, 0];
  const samples = drums.map((drum) => {
    const width = SAMPLE + readName(drum.name).length * LETTER_WIDTH;
    if (x > 0 && x + width > widthPx) [x, row] = [0, row + 1];
    const sample = { drum, x, row };
    x += width + APART;
    return sample;
  });
  return { samples, rows: drums.length === 0 ? 0 : row + 1 };
}

/** Heads and names of the drums, once each; the first baseline at y. */
export function drawLegend(pen: Pen, { samples }: Legend, { x, y }: { readonly x: number; readonly y: number }): void {
  pen.open('class="legend"');
  for (const { drum, x: left, row } of samples) {
    const baseline = y + row * LEGEND_LANE;
    drawSample(pen, { x: x + left, y: baseline - 4, step: drum.step, head: HEAD_GLYPHS[drum.head] });
    pen.letters(readName(drum.name), { x: x + left + SAMPLE, y: baseline, size: SIZE, anchor: 'start' });
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
  pen.letters(`${text.shown === 1 ? '1' : `1–${text.shown}`} / ${text.all} …`, { ...place, size: SIZE, anchor: 'end' });
}
