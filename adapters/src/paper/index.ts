/** The door of this folder: what others may import. */
export * from './faces.ts';
export * from './findings.ts';
export type { PrintedAs } from './page.ts';
export * from './paper.ts';
export * from './thennow.ts';
export * from './weeks.ts';
