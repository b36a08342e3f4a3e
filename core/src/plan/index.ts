/** The door of this stage: what others may import. */
export { makePlan } from './make.ts';
export { FEET_ANSWERS, type FeetAnswer, type PlaceOptions, type Today } from './place.ts';
export * from './plan.ts';
export { readPlan } from './read.ts';
export * from './refit.ts';
export * from './said.ts';
export { assumedGoalBpm } from './starttempo.ts';
export { type Circumstance, refitToday } from './today.ts';
export { WAYS, withWay } from './way.ts';
