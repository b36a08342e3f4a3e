/** The door of this stage: what others may import. */
export { exact, type Style, styles } from './parameters.ts';
export * from './learner.ts';
export * from './learningcurves.ts';
export * from './perform.ts';
export type { Room } from './room.ts';
export * from './take.ts';
