/** The door of this folder: what others may import. */
export * from './decode.ts';
export * from './encode.ts';
