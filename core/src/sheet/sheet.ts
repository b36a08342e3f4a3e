/** A sheet as data: what an engraving gives and what may be asked of it. */
import type { CountCountry } from '../exercise/index.ts';
import type { Mark } from './marks.ts';

/** What may be asked. */
export interface SheetOptions {
  /** Width to fill, px; default 800. Lines break so that it holds. One beat that needs more makes the sheet wider. */
  readonly widthPx?: number;
  /** What a screen reader says; default the sticking's letters. `words` has a spoken text for it. */
  readonly label?: string;
  /** The row of sticking letters; default true. */
  readonly letters?: boolean;
  /** Height of their font, px; default 15. Larger ones get higher rows, not more room beside each other: up to 24 the letters of 16ths do not touch. */
  readonly letterSize?: number;
  /** The row of what is counted aloud, as this country says it; default none. */
  readonly counts?: CountCountry;
  /** The row of stroke types, F full, D down, T tap, U up; default false. */
  readonly strokeTypes?: boolean;
  /** Heads and names of the drums below; default true, since positions vary between publishers. */
  readonly legend?: boolean;
  /** A bar that is as the one before stands as a sign; default false. Strokes under a sign have no frames. */
  readonly barRepeats?: boolean;
  /** Most bars written out; default 4. */
  readonly barLimit?: number;
}

/** Where one main stroke stands, so that a screen can frame it: the column from the top of its line to its letter. */
export interface StrokeFrame {
  readonly cycle: number;
  readonly index: number;
  /** Line of the sheet, from 0. */
  readonly line: number;
  /** Left top corner and size in px of the sheet. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A sheet before it is written as SVG: what a printed page is made from. */
export interface DrawnSheet extends Omit<Engraving, 'svg'> {
  readonly marks: readonly Mark[];
}

/** An engraved sheet. */
export interface Engraving {
  /** One SVG element, without ids, in the colour of the text around it. */
  readonly svg: string;
  /** Every main stroke of every cycle written out, in order of time. */
  readonly strokes: readonly StrokeFrame[];
  readonly widthPx: number;
  readonly heightPx: number;
  /** Lines of the sheet and the height of each, px: line k begins at k·linePx. */
  readonly lineCount: number;
  readonly linePx: number;
  readonly barsShown: number;
  /** Bars until the cycle meets the bar line; more than `barsShown` when the sheet stops before, and then it ends without a repeat sign. */
  readonly barsInAll: number;
}
