/** The door of this stage: what others may import. */
export { noteValue, tempoName } from './en/notevalue.ts';
export type { PictureStatement } from './pictured.ts';
export * from './say.ts';
export type { NoteNames, Sentences } from './sentences.ts';
