/** The door of this folder: what others may import. */
export * from './source.ts';
export * from './tail.ts';
export * from './walk.ts';
export * from './write.ts';
