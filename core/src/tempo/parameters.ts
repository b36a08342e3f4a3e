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

/** Tempi among which the clean tempo is looked for, and the step between them. Assumption: no drummer's pulse is outside; a step finer than anybody notices. */
export const CLEAN_TEMPO_GRID = { slowestBpm: 15, fastestBpm: 500, stepShare: 0.01 } as const;

/** How gradually clean runs fail, in log tempo: from within 2 % to over 15 %, alike likely at first. Assumption. */
export const SLOPES = [0.02, 0.03, 0.045, 0.07, 0.1, 0.15] as const;

/** Share of runs that fail at any tempo. @source [Watson2017] usual values .01 to .02. */
export const LAPSE_SHARE = 0.02;

/** How much a result counts that rests on the player's word. Assumption: half. */
export const WORD_WEIGHT = 0.5;

/** Days in which a result comes to count half. Assumption: a week of practice moves a player by more than the interval is wide. */
export const HALF_LIFE_DAYS = 7;

/** Fewest runs a clean tempo is told from. Assumption: two rounds of a short phrase. */
export const FEWEST_RUNS = 8;

/** A 90 % interval wider than this from end to end is told as "too little yet". Assumption: 80 to 104 says nothing about what to practise. */
export const WIDEST_RATIO = 1.3;
