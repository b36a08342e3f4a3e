/** The door of this stage: what others may import. */
export * from './drums.ts';
