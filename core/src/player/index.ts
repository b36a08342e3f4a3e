/** The door of this stage: what others may import. */

export * from './learner.ts';
export * from './learningcurves.ts';
export { exact, type Style, styles } from './parameters.ts';
export * from './perform.ts';
export type { Room } from './room.ts';
export * from './take.ts';
