/** The door of this stage: what others may import. */
export * from './block.ts';
export * from './present.ts';
export type { ExerciseSpan } from './round.ts';
export * from './said.ts';
export { lastRound, outcomeSoFar, roundsPlayed } from './saying.ts';
export * from './session.ts';
export * from './state.ts';
