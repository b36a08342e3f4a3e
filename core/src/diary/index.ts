/** The door of this stage: what others may import. */
export * from './backup.ts';
export * from './byhand.ts';
export { canonicalJson } from './canonical.ts';
export { compareMade, nextStamp, observe } from './clock.ts';
export { addDays, daysBetween, isDay, practiceDay } from './day.ts';
export { deletionOf, editOf } from './edit.ts';
export * from './fold.ts';
export * from './keeping.ts';
export { mergeRecords } from './merge.ts';
export { CUT_OVER_HOUR } from './parameters.ts';
export * from './record.ts';
export * from './restore.ts';
export * from './saved.ts';
export { upgrade } from './upgrade.ts';
export { isRecord, type LineProblem, readLines, recordId, writeLines, writeRecord } from './write.ts';
