/** The door of this stage: what others may import. */
export { exercisesBeyond } from './beyond.ts';
export * from './content.ts';
export * from './counting.ts';
export * from './exercise.ts';
export * from './focus.ts';
export * from './graces.ts';
export * from './heights.ts';
export { ownExercise } from './own.ts';
export { beyondSoFar, loopOf, type PlayedAt } from './playable.ts';
export { ranked } from './ranked.ts';
export * from './reason.ts';
export * from './shelf.ts';
export type { ExerciseTitle } from './title.ts';
