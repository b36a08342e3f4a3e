/** The door of this stage: what others may import. */
export type { ThenNowStatement } from './compared.ts';
export { english } from './en/english.ts';
export { firstEnglish } from './en/first.ts';
export { limbNames } from './en/limbs.ts';
export { noteValue, tempoName } from './en/notevalue.ts';
export { timeNames, volumeNames } from './en/oneword.ts';
export { sizeName } from './en/size.ts';
export { glanceOf } from './glance.ts';
export type { PictureStatement } from './pictured.ts';
export type { ReportStatement } from './reported.ts';
export * from './say.ts';
export * from './sayfrom.ts';
export type { NoteNames, Sentences } from './sentences.ts';
