/** The engraver, fetched when the first sheet is to be drawn: it is larger than all the rest of the app. */
import type { Exercise } from '@evenhand/core/exercise';
import type { Engraving, StrokeFrame } from '@evenhand/core/sheet';
import type { SheetLook } from './sheetlook.svelte.ts';
import { CAP_EM } from './standsize.ts';

/** An engraving, how much larger than its own size it is shown, and how many of its lines at once. */
export interface EngravedPage {
  readonly engraving: Engraving;
  readonly scale: number;
  /** Lines that stand on the screen at once; fewer than all when the exercise is long. */
  readonly shownLines: number;
}

/** Room on the screen, in CSS pixels. */
export interface Space {
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Sizes tried on a music desk, the largest that fits is taken. Assumption: at 3 a note head is 1 cm on a laptop. */
const DESK_SCALES = [3.6, 3.2, 2.9, 2.6, 2.3, 2, 1.7, 1.4, 1.2, 1] as const;

/** Letters under the notes on a music desk, px of the sheet: as large as sixteenths leave room for. */
const DESK_LETTERS = 24;

/** Bars drawn on the shelf, and at most on the desk. Assumption: two lines on a phone; the longest round. */
const SHELF_BARS = 2;
const DESK_BARS = 24;

/** Fetches the engraver, because sheets will be drawn soon; when that fails, drawing tries again. */
export const fetchEngraver = (): void => void import('@evenhand/core/sheet').catch(() => {});

/** How much larger large type is. Assumption: read at a metre what is usually read at two thirds of it. */
const LARGE = 1.5;

const USUAL_LOOK: SheetLook = { rows: {}, large: false };

/** What is asked of a sheet beside its room. */
interface Wanted {
  readonly label: string;
  /** Default the letters alone, at the usual size. */
  readonly look?: SheetLook;
}

/** For the shelf: at its own size, or in large type. @param options.widthPx room it has. */
export async function engraveForShelf(
  exercise: Exercise,
  { widthPx, label, look = USUAL_LOOK }: Wanted & { readonly widthPx: number },
): Promise<EngravedPage> {
  const { engrave } = await import('@evenhand/core/sheet');
  const scale = look.large ? LARGE : 1;
  const engraving = engrave(exercise, { widthPx: Math.floor(widthPx / scale), label, ...look.rows, barLimit: SHELF_BARS });
  return { engraving, scale, shownLines: engraving.lineCount };
}

/**
 * For the desk: all of it as large as the space allows; when its letters would be smaller than must be read from the drum stool, some lines of it
 * at a time, and only where not even two lines of those fit, smaller.
 * @param options.leastCapPx least height of a letter on the screen.
 */
export async function engraveForDesk(exercise: Exercise, options: Space & Wanted & { readonly leastCapPx: number }): Promise<EngravedPage> {
  const { engrave } = await import('@evenhand/core/sheet');
  const { widthPx, heightPx, label, leastCapPx, look = USUAL_LOOK } = options;
  const least = ((look.large ? LARGE : 1) * leastCapPx) / (CAP_EM * DESK_LETTERS);
  const asked = { label, ...look.rows, barLimit: DESK_BARS, legend: false, letterSize: DESK_LETTERS };
  const pages = [...DESK_SCALES, least]
    .sort((a, b) => b - a)
    .map((scale): EngravedPage => {
      const engraving = engrave(exercise, { widthPx: Math.floor(widthPx / scale), ...asked });
      const { lineCount, linePx } = engraving;
      const whole = engraving.heightPx * scale <= heightPx;
      const shownLines = whole ? lineCount : Math.min(lineCount, Math.max(1, Math.floor(heightPx / (linePx * scale))));
      return { engraving, scale, shownLines };
    })
    .filter((page) => page.scale === 1 || page.engraving.widthPx * page.scale <= widthPx);
  const fits = (page: EngravedPage): boolean => page.engraving.heightPx * page.scale <= heightPx;
  const turned = pages.filter(({ shownLines, engraving }) => shownLines >= 2 && shownLines < engraving.lineCount);
  const readable = turned.filter(({ scale }) => scale >= least);
  return pages.find((page) => fits(page) && page.scale >= least) ?? mostAtOnce(readable) ?? turned[0] ?? pages.find(fits) ?? pages.at(-1)!;
}

/** Whether the letters of a page for the desk are so large. */
export const isReadable = ({ scale }: EngravedPage, leastCapPx: number): boolean => CAP_EM * DESK_LETTERS * scale >= leastCapPx - 1e-6;

/** The page with the most music on the screen at once; of equals the first. */
const mostAtOnce = (pages: readonly EngravedPage[]): EngravedPage | undefined => {
  const share = ({ shownLines, engraving }: EngravedPage) => shownLines / engraving.lineCount;
  return pages.find((page) => pages.every((other) => share(page) >= share(other)));
};

/**
 * The line that stands on top while a stroke of `line` is due. Pages are turned ahead: the last line of a page is the first of the next,
 * so that what comes is always in sight.
 */
export function topLine(page: EngravedPage, line: number): number {
  const { shownLines } = page;
  const { lineCount } = page.engraving;
  if (shownLines >= lineCount) return 0;
  const step = Math.max(1, shownLines - 1);
  return Math.min(lineCount - shownLines, Math.floor(line / step) * step);
}

/**
 * The frame around the strokes that are due: all of them, in the cycle that is written out.
 * @param due cycle since the start of the round, and main strokes in it.
 * @returns null when they are not on the page.
 */
export function frameOf(
  page: EngravedPage,
  due: { readonly cycle: number; readonly indices: readonly number[] },
): Omit<StrokeFrame, 'cycle' | 'index'> | null {
  const { strokes } = page.engraving;
  const perCycle = new Set(strokes.map((stroke) => stroke.index)).size;
  const cycle = due.cycle % Math.max(1, Math.ceil(strokes.length / perCycle));
  const here = strokes.filter((stroke) => stroke.cycle === cycle && due.indices.includes(stroke.index));
  const first = here[0];
  if (!first) return null;
  const x = Math.min(...here.map((stroke) => stroke.x));
  const right = Math.max(...here.map((stroke) => stroke.x + stroke.width));
  return { line: first.line, x, y: first.y, width: right - x, height: first.height };
}
