/** The door of this stage: what others may import. */
export { type Alongside, layAlongside } from './alongside.ts';
export * from './comparisons.ts';
export { restsOn, type TempoCourse, tempoCourse } from './course.ts';
export * from './firstandlast.ts';
export { measurementOfHeard } from './keptheard.ts';
export * from './practised.ts';
export * from './ready.ts';
export * from './referencetakes.ts';
export * from './results.ts';
export { type RisenRow, type RisenWord, type RowAsked, risenWith } from './risenwith.ts';
export * from './said.ts';
export * from './saidcourse.ts';
export { besideJump, type SaidSetup, type SetupChange, setupChanges } from './setups.ts';
export * from './tempocurve.ts';
export * from './thenandnow.ts';
export * from './tohear.ts';
export * from './volumes.ts';
export { type WeekTempo, weekTempi } from './weektempi.ts';
