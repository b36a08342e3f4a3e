/** The door of this stage: what others may import. */
export * from './content.ts';
export * from './exercise.ts';
export * from './focus.ts';
export * from './shelf.ts';
