/** The door of this stage: what others may import. */
export * from './aiff.ts';
export { allBytes, inMemory, type SeekableBytes } from './bytes.ts';
export * from './device.ts';
export * from './inspect.ts';
export * from './latency.ts';
export { looksLike } from './looks.ts';
export type { Channels } from './mix.ts';
export { HIGHEST_RATE_HZ, LOOPBACK_SPREAD_MOST_SEC, LOWEST_RATE_HZ } from './parameters.ts';
export { type Blocks, type ChannelStream, joinSamples, monoOf, type SoundStream, takeOf } from './stream.ts';
export * from './take.ts';
export * from './wav.ts';
