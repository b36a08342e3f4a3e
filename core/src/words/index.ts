/** The door of this stage: what others may import. */
export * from './say.ts';
export type { Sentences } from './sentences.ts';
