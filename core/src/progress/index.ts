/** The door of this stage: what others may import. */
export { type Alongside, layAlongside } from './alongside.ts';
export * from './comparisons.ts';
export * from './firstandlast.ts';
export { measurementOfHeard } from './keptheard.ts';
export * from './practised.ts';
export * from './ready.ts';
export * from './referencetakes.ts';
export * from './results.ts';
export * from './said.ts';
export * from './tempocurve.ts';
export * from './thenandnow.ts';
export * from './tohear.ts';
export * from './volumes.ts';
