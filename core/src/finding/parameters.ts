/** The numbers that decide what is worth telling. */

/** One stroke moved in an even row is heard from here on. @source [Friberg1995] 6 ms below 240 ms, 2.5 % of the interval above. */
export const AUDIBLE_MS = 6;
export const AUDIBLE_SHARE = 0.025;

/** Volumes nearer than this are alike, dB. @source [JesteadtWierGreen1977] a difference of half to one dB is just heard. */
export const ALIKE_DB = 1;

/** From here on a difference in volume is clear, dB: a place counts as soft or loud, on its mean. @source [JobBrief] clean: the mean volume of each place within 3 dB of the shape wanted. */
export const CLEAR_DB = 3;

/** Where ghosts are wanted, hand strokes this much softer than the loudest of their drum are some. Assumption: twice what counts as soft. */
export const GHOST_DB = 6;

/** Cycles below which a take says too little, and how many to ask for. 11 to 17 give ±6 ms at a spread of 10 ms. */
export const FEWEST_CYCLES = 8;
export const WISHED_CYCLES = 16;

/** How far places of an even player, heard by this ear, lie off each other all the same (standard deviation). @tuned bench/finding */
export const NATURAL = { ms: 0.7, db: 0.5 } as const;

/**
 * Strokes meant together are heard at the first of them: earlier than either by 0.56 deviations of a limb's own delay, here 4 ms of it.
 * How far that may be off, standard deviation. Assumption, with the player's split into clock and delay.
 */
export const FIRST_OF_TWO = { earlyMs: 2.3, naturalMs: 1.5 } as const;

/** What single strokes vary by at least: below, the ear's own error counts. Assumption. */
export const LEAST_NOISE = { ms: 1, db: 0.3 } as const;

/** What single strokes vary by in volume when a diary does not tell it, dB. Assumption: an intermediate player’s 2 dB. */
export const KEPT_VOLUME_DB = 2;

/** Strokes further from their place than so many spreads are drawn in to there. Assumption: the usual choice of a Huber clip is 1.5 to 3. */
export const CLIP_SPREADS = 3;

/** How many strokes' worth of trust the spread of the whole take has against the spread of one place. Assumption. */
export const SPREAD_TRUST = 16;

/** How large faults are before anything is known (standard deviation of their prior): one and a half times what is heard. Assumption. */
export const FAULT_SIZE = { units: 1.5 } as const;

/** Odds that a take holds nothing to be told, and that it holds nothing beyond what was told. @tuned bench/finding */
export const NONE_PRIOR = { first: 0.6, further: 0.9 } as const;

/** How many findings a take can have at most. Assumption: more than three is not listened to. */
export const MOST_FINDINGS = 4;

/** Columns that agree to this correlation touch the same strokes. */
export const SAME_STROKES = 0.995;

/** Rivals lighter than this share of the weight are left out. Assumption. */
export const LEAST_RIVAL = 0.05;

/** Beta priors of how often a stroke goes missing or bounces: usually, and where there is a fault. Assumption, the first near the 1.4 % missed in recorded practice. */
export const RATE_PRIOR = { usual: { hits: 0.5, others: 30 }, fault: { hits: 1, others: 3 } } as const;
/** The same for strokes meant together: two limbs fall apart by a little now and then. Assumption. */
export const APART_PRIOR = { usual: { hits: 1, others: 15 }, fault: { hits: 2, others: 2 }, share: 0.2 } as const;

/** Told as missing or bouncing from this many and this share on. Assumption: once may happen to anybody. */
export const MISSES = { count: 2, share: 0.04 } as const;

/** Onsets this close to strokes meant together are one of them come apart; further off they are a bounce. @source [Gillick2019] closed flams */
export const APART_MS = 50;
/** A bounce follows its stroke within this, or nine tenths of the space to the next. Assumption. */
export const BOUNCE_MS = 160;

/** How long a probe is. @source [JobBrief] twenty seconds */
export const PROBE_SEC = 20;
/** A probe that would settle less of the doubt than this is not worth the twenty seconds. Assumption. */
export const LEAST_GAIN = 0.1;
