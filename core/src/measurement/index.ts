/** The door of this stage: what others may import. */
export * from './measure.ts';
export * from './measurement.ts';
