/** Numbers that decide how pictures look. All lengths in CSS pixels. */

/** Narrowest and widest picture that is drawn; outside, the nearest is taken and scaled. Assumption: a small phone, a reading width. */
export const WIDTH_RANGE_PX = { least: 280, most: 900 } as const;

/** Largest ring: beyond, the letters are too far apart to be read as one. Our choice. */
export const RING_MOST_PX = 460;

/** Room around the circle for letters, interval bars and what stands beside them. */
export const RING_MARGIN_PX = 62;

/** Distance of a letter from the circle, and of a second letter at the same place from the first. */
export const LETTER_LANE_PX = 25;
export const SECOND_LANE_PX = 26;

/** Size of a letter of ordinary volume, and its limits. */
export const LETTER_PX = { ordinary: 19, least: 11, most: 32 } as const;

/** A letter doubles in size with so many dB. Our choice: 3 dB, which counts against a run, is seen at once. */
export const DOUBLING_DB = 7;

/** How many times shifts may be drawn; the largest that keeps every letter within its share of the space to its neighbour. */
export const SHIFT_TIMES = [1, 2, 3, 4, 5, 6, 8, 10, 15, 20] as const;
export const SHIFT_SHARE = 0.42;

/** A shift of this size must stay small enough to fit even when nothing is shifted, so that even play looks even. @source [Friberg1995] three times the audible 6 ms. */
export const SHIFT_AT_LEAST_MS = 18;

/** Half the width of the notch at 1, along the circle, and its depth. */
export const NOTCH_PX = { half: 7, depth: 9 } as const;

/** Height of a row of the cycles, and the margins of plots with axes. */
export const ROW_PX = 68;
export const PLOT_MARGIN_PX = { left: 70, right: 18, top: 30, bottom: 46 } as const;

/** Height of the tempo plot as a share of its width, and its limits. */
export const TEMPO_HEIGHT = { share: 0.56, least: 240, most: 420 } as const;

/** Days between two date labels: the smallest that leaves each label its room. */
export const DAY_STEPS = [1, 2, 7, 14, 28, 56, 91, 182, 364, 728] as const;
export const DAY_LABEL_PX = 78;

/** Size of small text. */
export const SMALL_TEXT_PX = 12;

/** Width of a letter of small text. Assumption: half its height, as most faces have it, and a little more. */
export const SMALL_LETTER_PX = 0.54 * SMALL_TEXT_PX;

/** The whole diary: room left and right (left with an axis), height of a row of text, of a row of numbers above the lanes, between lanes. Our choice. */
export const WHOLE_PX = { left: 34, bareLeft: 4, right: 4, row: 15, numberRow: 16, gap: 9, axis: 34 } as const;

/** Height of a lane by how many there are at most: so that the whole is seen at one look. A lane lower than `axisFrom` has no axis. Our choice. */
export const LANE_PX = {
  heights: [
    { most: 6, px: 54 },
    { most: 12, px: 26 },
    { most: Number.POSITIVE_INFINITY, px: 14 },
  ],
  axisFrom: 26,
} as const;

/** Months between two labels: the smallest that leaves each its room. */
export const MONTH_STEPS = [1, 2, 3, 6, 12, 24, 60] as const;
export const MONTH_LABEL_PX = 31;

/** What lies between the days is numbered up to so many, the longest days away first; and told in so many lines of text each, by the width there is. Our choice. */
export const NUMBERED = { most: 14, changes: 4, lessons: 4, moves: 6, narrowPx: 500, linesNarrow: 3, linesWide: 2 } as const;

/** Where things stand in a picture to show: title; each ring as left, top, width; what is said as left, first line, width, height. Our choice. */
export const SHOWN_PX = {
  square: {
    widthPx: 1080,
    heightPx: 1080,
    title: [60, 92],
    titlePx: 46,
    captionPx: 30,
    rings: [
      [30, 200, 500],
      [550, 200, 500],
    ],
    said: [60, 800, 960, 270],
    saidPx: 30,
  },
  wide: {
    widthPx: 1920,
    heightPx: 1080,
    title: [70, 100],
    titlePx: 56,
    captionPx: 36,
    rings: [
      [40, 250, 640],
      [690, 250, 640],
    ],
    said: [1370, 330, 500, 660],
    saidPx: 34,
  },
} as const;
