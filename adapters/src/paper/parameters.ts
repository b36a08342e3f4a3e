/** Sizes of a printed page, points (72 to the inch). Assumptions of ours, judged by eye on paper, unless a source stands beside. */

/** White around everything: printers leave 12 mm at most unprinted. */
export const MARGIN = 45;

/** Points per px of an engraved sheet: a staff of 7.4 mm, as method books have; of 10.6 mm in large type, to be read from a music stand. */
export const SCALE = 0.525;
export const LARGE_SCALE = 0.75;

/** Text sizes; in large type each is so much larger. */
export const TITLE_SIZE = 18;
export const HEADING_SIZE = 12;
export const TEXT_SIZE = 9.5;
export const SMALL_SIZE = 8;
export const LARGE_TYPE = 1.35;

/** The sentence of a finding: read first, at arm's length. */
export const SAID_SIZE = 14;

/** The stroke ring on a page for a student. */
export const RING_WIDTH = 250;

/** A page of weeks that is longer than a sheet is drawn anew in type so much smaller: 8 points are still read. */
export const SMALLER_TYPE = 0.85;

/** Rings of then and now that make room for words are drawn so much smaller: the letters of 48 strokes are still read. */
export const SMALLEST_RING = 0.7;

/** Shares of the width of the table of strokes: stroke, drum, comes, varies, volume. */
export const STROKE_COLUMNS = [0.08, 0.14, 0.31, 0.12, 0.35] as const;

/** The same of the table of weeks: week, days practised, days planned, sessions, minutes, by hand. */
export const WEEK_COLUMNS = [0.28, 0.16, 0.15, 0.12, 0.12, 0.17] as const;

/** The same of the table of plans: first and last day, days practised, days planned, minutes, wanted, clean at its end. */
export const PLAN_COLUMNS = [0.26, 0.13, 0.13, 0.11, 0.1, 0.27] as const;

/** The same of the table of then and now: stroke, comes then, comes now, changed by, varies then, varies now. */
export const CHANGE_COLUMNS = [0.07, 0.2175, 0.2175, 0.215, 0.14, 0.14] as const;

/** Between the parts of an exercise, and between exercises. */
export const GAP = 4;
export const BLOCK_GAP = 16;

/** A box for a tempo by hand: room for three digits of a pencil. */
export const BOX = { width: 46, height: 22, apart: 8 } as const;

/** Bars of an exercise on a practice sheet at most. Assumption: half a page. */
export const SHEET_BARS = 16;
