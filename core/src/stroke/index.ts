/** The door of this stage: what others may import. */
export { candidates, createEar, type EarOptions, type EarState, earForTheEnd, finish, type Heard, hear, step } from './ear.ts';
export type { Loudness } from './loudness.ts';
export { refine } from './refine.ts';
export type { Candidate, DrumKind, DrumOdds, Stroke } from './stroke.ts';
