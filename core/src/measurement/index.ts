/** The door of this stage: what others may import. */
export { type CycleEvent, type EventCycle, eventsOf } from './events.ts';
export { type MeasureOptions, measure } from './measure.ts';
export * from './measurement.ts';
export { TIMING_CONFIDENCE } from './parameters.ts';
export { placesOf } from './places.ts';
export { measureSpans, type SpanOptions, type TakeSpan } from './spans.ts';
export { type Interval, mean, standardDeviation, wilson } from './statistics.ts';
