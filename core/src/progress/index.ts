/** The door of this stage: what others may import. */
export * from './firstandlast.ts';
export * from './practised.ts';
export * from './ready.ts';
export * from './said.ts';
export * from './tempocurve.ts';
export * from './thenandnow.ts';
export * from './volumes.ts';
