/** The door of this stage: what others may import. */

export { cleanOdds, entropyBits, expectedEntropyBits, type OddsCurve, posterior, whereOddsAre } from './belief.ts';
export { burstsHeard, type HeardStroke } from './burstsheard.ts';
export { type CarriedPair, type CarryOver, carryOver, type Kept, usualShare } from './carryover.ts';
export { type CleanOptions, type CleanRuns, cleanRuns, type Tolerance } from './cleanruns.ts';
export { type CleanTempo, type CleanTempoEstimate, cleanTempo, type TempoRange, type TooLittle } from './cleantempo.ts';
export { type FindOptions, type FindStep, findStep, type SearchReason, tempoThatTellsMost } from './findtempo.ts';
export { fitCurve } from './fittedcurve.ts';
export * from './forecast.ts';
export { type NextTempo, nextTempo, type TempoReason, type TempoResult } from './nexttempo.ts';
export { FIND, TARGET_SHARE, WORD_WEIGHT } from './parameters.ts';
export { settlesAt, stepRatio } from './staircase.ts';
export { type Standing, type StandingReason, standsAt } from './standing.ts';
export { type TappedTempo, tappedTempo } from './tapped.ts';
export { believe, believedOdds, curveThrough, type ExpectedTempo, type TempoBelief, tempoBelow, type WeighedResult } from './tempobelief.ts';
export { type ShapeStatement, shapeSaid, type TempoShape, tempoShape } from './temposhape.ts';
