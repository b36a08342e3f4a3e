/** The door of this stage: what others may import. */
export * from './keeping.ts';
export * from './record.ts';
export * from './saved.ts';
