/** The door of this stage: what others may import. */
export { type FindOptions, findBeats } from './find.ts';
export * from './song.ts';
export { barCountOf, doubled, fromTaps, halved, inTempo, loopOf, onOffbeat, withOne } from './told.ts';
