/** The door of this folder: what others may import. */
export { crc32 } from './crc.ts';
export type { EntryFacts } from './layout.ts';
export * from './source.ts';
export * from './tail.ts';
export * from './walk.ts';
export * from './write.ts';
