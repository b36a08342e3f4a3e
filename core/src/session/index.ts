/** The door of this stage: what others may import. */
export { askedTempoBpm } from './again.ts';
export * from './beats.ts';
export * from './block.ts';
export * from './click.ts';
export { readClickWay } from './clickway.ts';
export * from './command.ts';
export { type Counted, countsOf } from './countin.ts';
export { stretchesBefore } from './follow.ts';
export * from './layout.ts';
export * from './present.ts';
export type { ExerciseSpan } from './round.ts';
export * from './said.ts';
export { barsPlayed, lastRound, outcomeSoFar } from './saying.ts';
export * from './session.ts';
export * from './state.ts';
export { createSticks, type StickCount, type SticksState, stepSticks } from './stickcount.ts';
