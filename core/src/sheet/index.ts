/** The door of this stage: what others may import. */
export { engrave, engraveSvg } from './engrave.ts';
export * from './sheet.ts';
