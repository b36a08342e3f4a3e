/** The door of this folder: what others may import. */
export * from './findings.ts';
export type { PrintedAs } from './page.ts';
export * from './paper.ts';
export * from './thennow.ts';
export * from './weeks.ts';
