/** The door of this stage: what others may import. */
export { type EventGroup, eventsOf, type StickingEvent } from './events.ts';
export { feetToHands } from './feettohands.ts';
export * from './necklace.ts';
export { SLOT_LIMIT } from './parameters.ts';
export { readSticking } from './read.ts';
export { holdOf, RUDIMENTS, type Rudiment, type RudimentHold, soundingOf, soundingOfRudiment, stickingOfRudiment, timesHeld } from './rudiments.ts';
export * from './sticking.ts';
export { type Cell, cellOf, mirror, rotate, startsOf } from './turn.ts';
