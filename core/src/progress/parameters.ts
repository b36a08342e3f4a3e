/** Numbers that decide what progress claims. */

/** Days without a session that go without a word. @source [JobBrief] issue 7: the player's own, three unless said. */
export const DAYS_AWAY_ALLOWED = 3;

/** Relative standard error of 1.4826·MAD of n normal values is this over √n: its efficiency is 37 %. @source [RousseeuwCroux1993] √(1/(2·.37)) */
export const SPREAD_ERROR = 1.1625;

/** Half of a 95 % interval in standard errors. @source Φ⁻¹(.975) */
export const HALF_95 = 1.959964;

/** Fewest strokes of a place from which a spread or a volume is told. Assumption: below, the interval is wider than any change. */
export const FEWEST_STROKES = 6;

/** A shift of one stroke is heard from here on, ms. @source [Friberg1995] */
export const HEARD_MS = 6;

/** Cycles of the first and of the last seconds of a take that are held against each other, at least, and the share of the take that each is. Assumption: six give a median an interval. */
export const FIRST_LAST = { fewestCycles: 6, share: 1 / 3 } as const;

/** A reference take at a tempo this far off is another tempo. @source [Drake1993] the smallest difference anybody notices. */
export const SAME_TEMPO_SHARE = 0.015;

/** Fewest runs at the tempo wanted that make a day count. Assumption: as many as a clean tempo is told from. */
export const DAY_RUNS = 8;

/** Days on which each family must be clean. @source [JobBrief] issue 7: on two days. */
export const DAYS_CLEAN = 2;

/** Days until the check. @source [JobBrief] "again weeks later"; three weeks are our choice. */
export const CHECK_AFTER_DAYS = 21;

/** Figures that are compared of each place: when, how steadily, how loud. */
export const FIGURES_PER_PLACE = 3;

/** Volumes nearer than this are alike, dB. @source [JesteadtWierGreen1977] a difference of half to one dB is just heard. */
export const ALIKE_DB = 1;

/** From here on a difference in volume is clear, dB. @source [JobBrief] clean: the mean volume of each place within 3 dB of the shape wanted. */
export const CLEAR_DB = 3;

/** So much is heard before the first stroke of a part, for it may come early. Assumption: twice as early as a drummer plays. */
export const LEAD_SEC = 0.05;

/** Fade at a cut, seconds: too short to be noticed, long enough not to click. Assumption. */
export const FADE_SEC = 0.005;

/** How often then and now are heard in turn. Our choice: the second time one knows what to listen for. */
export const TURNS = 2;

/** True peaks stay this far under full scale, dB. @source [EBU3341] as R 128 asks of programmes: −1 dBTP. */
export const CEILING_DB = -1;

/** Where only the latest days of a curve are asked for, results older than this are left out. @tuned bench/diary: the clean tempo moves by less than a beat a minute. */
export const REMEMBERED_DAYS = 365;
