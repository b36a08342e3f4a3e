/** The door of this folder: what others may import. */
export { type ByteSource, bytesSource, ZipFullError } from '../zip/index.ts';
export { partsOf, type RecordParts } from './lines.ts';
export * from './read.ts';
export * from './write.ts';
