/** The door of this stage: what others may import. */
export * from './content.ts';
export * from './exercise.ts';
export * from './focus.ts';
export { ownExercise } from './own.ts';
export * from './said.ts';
export * from './shelf.ts';
