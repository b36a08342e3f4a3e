/** The door of this stage: what others may import. */
export { drawSheet, engrave, engraveSvg } from './engrave.ts';
export { type Mark, SOFT_INK } from './marks.ts';
export { type MidiOptions, midiFile } from './midi.ts';
export { type MusicXmlOptions, musicXml } from './musicxml.ts';
export type { PaperStatement } from './paper.ts';
export * from './sheet.ts';
export { type SpokenSheet, spokenSheet } from './spoken.ts';
