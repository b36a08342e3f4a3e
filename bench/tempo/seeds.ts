/** Seeds of the simulated players: those that are told, named before anything was tuned, and those that tuning may look at. */

/** Named first, run last: no number of the product was chosen by looking at these players. */
export const TOLD_SEEDS = [20_261_125, 31_415_926, 27_182_818] as const;

/** For tuning. */
export const TUNING_SEEDS = [1, 2, 3] as const;
