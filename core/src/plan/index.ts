/** The door of this stage: what others may import. */
export { closePlan, reopenPlan, withCheck } from './checks.ts';
export { closingFamilies, withClosing } from './closing.ts';
export { makePlan } from './make.ts';
export { BACK_AFTER_HURT, TOO_HARD_REST_DAYS } from './parameters.ts';
export { parentLine } from './parentline.ts';
export { FEET_ANSWERS, type FeetAnswer, type PlaceOptions, type Today } from './place.ts';
export * from './plan.ts';
export * from './planned.ts';
export { readPlan } from './read.ts';
export { type Happened, planAgain, type Refitted, refit } from './refit.ts';
export * from './said.ts';
export { type NameStandIn, standIns, withoutFeet } from './standins.ts';
export { assumedGoalBpm } from './starttempo.ts';
export { type Circumstance, refitToday } from './today.ts';
export { WAYS } from './way.ts';
export * from './weekspage.ts';
export { daysOfPhrase, PHRASE_AT_HAND, type WeeksAsked } from './weeksplan.ts';
export * from './weekssaid.ts';
