/** The numbers that decide what is worth telling. */

/** One stroke moved in an even row is heard from here on. @source [Friberg1995] 6 ms below 240 ms, 2.5 % of the interval above. */
export const AUDIBLE_MS = 6;
export const AUDIBLE_SHARE = 0.025;

/** A place counts as soft or loud from here on, on its mean. Assumption: three times what can just be heard. */
export const CLEAR_DB = 3;

/** Cycles below which a take says too little, and how many to ask for. 11 to 17 give ±6 ms at a spread of 10 ms. */
export const FEWEST_CYCLES = 8;
export const WISHED_CYCLES = 16;

/** A place is said to go missing from this many misses and this share on. Assumption: once may happen to anybody. */
export const MISSES = { count: 2, share: 0.04 } as const;

/** A pair is said to bounce on from this share of its cycles on. Assumption. */
export const BOUNCE_SHARE = 0.2;

/** How much stands against all findings together: what a take leaves unexplained. Assumption. */
export const DOUBT = 1;
