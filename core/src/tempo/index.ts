/** The door of this stage: what others may import. */
export { type CleanOptions, type CleanRuns, cleanRuns, type Tolerance } from './cleanruns.ts';
export { type NextTempo, nextTempo, stepRatio, type TempoReason, type TempoResult } from './nexttempo.ts';
