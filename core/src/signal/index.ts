/** The door of this stage: what others may import. */
export * from './bands.ts';
export * from './decimate.ts';
export * from './engines.ts';
export * from './foretell.ts';
export * from './loudness.ts';
export * from './peaks.ts';
export * from './predict.ts';
export * from './resample.ts';
export * from './slower.ts';
