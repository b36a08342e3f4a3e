/** Numbers that decide how the simulated player learns. Ranges are drawn evenly; where no source is named they are assumptions. */

/** Strokes of a run that must all be within what is allowed. @source [JobBrief] clean run */
export const FULL_RUN_STROKES = 8;

/** What is heard as unevenness: 6 ms, or this share of a slot when that is more. @source [Friberg1995] */
export const HEARD_ERROR = { ms: 6, slotShare: 0.025 } as const;

/** Errors at ease grow with longer slots, less than what is allowed does. Assumption. */
export const ERROR_FLOOR_SHARE = 0.5;

/** Deviation of a stroke at ease as a share of what a run allows. Assumption: 4 to 6 ms of 18, near a drummer's 8 ms at speed. */
export const STEADY_SHARE = { least: 0.22, most: 0.33 } as const;

/** Exponent with which errors grow past the limit. Assumption: from gradual to sudden; clean runs then fall from 85 to 50 % within 5 to 20 % of tempo. */
export const STEEPNESS = { least: 3, most: 12 } as const;

/** How much an unlearnt part slows down, in log tempo. Assumption; that sticking and rhythm both carry over: [MeyerPalmer2003]. */
export const PART_SIZES = {
  sticking: { least: 0.05, most: 0.3 },
  rhythm: { least: 0, most: 0.15 },
  drums: { least: 0, most: 0.15 },
  own: { least: 0.02, most: 0.2 },
} as const;

/** Rates of the laws of practice, per run. @source [NewellRosenbloom1981] exponents .2 to .6; rates by assumption: half is learnt in 230 to 1,400 runs. */
export const LEARNING_LAWS = { rate: { least: 0.0005, most: 0.003 }, exponent: { least: 0.2, most: 0.6 } } as const;

/**
 * Share of a day's learning that is there next day. Assumption for the sizes; more after mixed playing [Czyz2024] in most players, and for
 * some in a row is as good: the ranges overlap.
 */
export const KEPT = {
  inARow: { least: 0.4, most: 0.9 },
  mixed: { least: 0.6, most: 0.95 },
  fadeDays: { least: 10, most: 90 },
} as const;

/** Share of a day's gain lost to a near-twin played last. @source [Allen2013] for the loss; its size is an assumption. */
export const TWIN_LOSS_SHARE = 0.5;

/** Form of a day, deviation in log tempo. Assumption. */
export const FORM_SD = { least: 0.005, most: 0.025 } as const;
