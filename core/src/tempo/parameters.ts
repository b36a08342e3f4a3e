/** The numbers that decide whether a run is clean and what tempo comes next. */

/** Main strokes that make a run. */
export const RUN_STROKES = 8;

/** How many times what is just heard a stroke may lie off. */
export const TOLERANCE_FACTORS = { wide: 4, medium: 3, narrow: 2 } as const;

/** A place's mean volume may lie this far from the shape wanted. Assumption: three times what can just be heard. */
export const VOLUME_DB = 3;

/** Share of clean runs to practise at. @source [Wilson2019] Φ(1) = 84.13 %, rounded. */
export const TARGET_SHARE = 0.85;

/** The tempo rises only when at least this share is sure (Wilson, 95 %): the lower end of 80 to 85 %. Assumption. */
export const SURE_SHARE = 0.8;

/** Step when every run is clean, and the limits of any step, as shares of the tempo. Assumption within what is noticed. */
export const STEP_SHARE = 0.05;
export const LARGEST_FALL_SHARE = 0.15;
/** Smallest change of tempo worth making. @source [Drake1993] 3 % over six intervals, 1.5 % at best. */
export const SMALLEST_STEP_SHARE = 0.03;

/** Results at tempi this near count as one tempo. @source [Drake1993] 1.5 %, the best anybody notices. */
export const SAME_TEMPO_SHARE = 0.015;
