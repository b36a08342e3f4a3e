/** The engraver, fetched when the first sheet is to be drawn: it is larger than all the rest of the app. */
import type { Exercise } from '@evenhand/core/exercise';
import type { Engraving, StrokeFrame } from '@evenhand/core/sheet';

/** An engraving and how much larger than its own size it is shown. */
export interface EngravedPage {
  readonly engraving: Engraving;
  readonly scale: number;
}

/** Room on the screen, in CSS pixels. */
export interface Space {
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Sizes tried on a music desk, the largest that fits is taken: 3 is a note head of 3.5 cm per metre on a tablet. Assumption. */
const DESK_SCALES = [3, 2.6, 2.2, 1.9, 1.6, 1.4, 1.2, 1] as const;

/** Bars drawn on the shelf, and at most on the desk. Assumption: two lines on a phone; what a screen holds. */
const SHELF_BARS = 2;
const DESK_BARS = 9;

/** For the shelf: small, at its own size. @param widthPx room it has. */
export async function engraveForShelf(exercise: Exercise, options: { readonly widthPx: number; readonly label: string }): Promise<EngravedPage> {
  const { engrave } = await import('@evenhand/core/sheet');
  return { engraving: engrave(exercise, { ...options, barLimit: SHELF_BARS }), scale: 1 };
}

/** For the desk: all bars until the cycle meets the bar line, as large as the space allows. */
export async function engraveForDesk(exercise: Exercise, options: Space & { readonly label: string }): Promise<EngravedPage> {
  const { engrave } = await import('@evenhand/core/sheet');
  const { widthPx, heightPx, label } = options;
  const at = (scale: number): EngravedPage => ({
    scale,
    engraving: engrave(exercise, { widthPx: Math.floor(widthPx / scale), label, barLimit: DESK_BARS, legend: false }),
  });
  for (const scale of DESK_SCALES) {
    const page = at(scale);
    if (page.engraving.heightPx * scale <= heightPx && page.engraving.widthPx * scale <= widthPx) return page;
  }
  return at(1);
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
