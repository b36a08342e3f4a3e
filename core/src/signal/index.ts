/** The door of this stage: what others may import. */
export * from './bands.ts';
export * from './peaks.ts';
export * from './predict.ts';
export * from './quantile.ts';
