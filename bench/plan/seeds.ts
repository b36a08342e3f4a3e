/** Seeds of the players of this bench, named before it was run; the planner was not tuned on any. */
export const SEEDS = [20_261_125, 16_180_339, 14_142_135] as const;
