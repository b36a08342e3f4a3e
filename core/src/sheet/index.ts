/** The door of this stage: what others may import. */
export { engrave, engraveSvg } from './engrave.ts';
export * from './sheet.ts';
export { type SpokenSheet, spokenSheet } from './spoken.ts';
