/** The door of this folder: what others may import. */
export * from './comes.ts';
export * from './report.ts';
export * from './tables.ts';
export * from './thennow.ts';
export * from './weeks.ts';
export * from './whole.ts';
