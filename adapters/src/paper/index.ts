/** The door of this folder: what others may import. */
export * from './findings.ts';
export * from './paper.ts';
export * from './weeks.ts';
