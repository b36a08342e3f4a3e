/** The door of this folder: what others may import. */
export * from './drawn.ts';
