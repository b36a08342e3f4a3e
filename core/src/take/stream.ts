/** Sound in blocks, so that an hour need not be held at once; and the take that comes of it when it may be. */
import type { Reading } from '../problem.ts';
import { type Channels, measureMix, mixBlock, mixChoice, startMix } from './mix.ts';
import { fileClock, type Take, type TakeProblem } from './take.ts';

/** Blocks of sound in the order of time; what was found to be wrong on the way comes at their end. */
export type Blocks<Block> = Generator<Block, readonly TakeProblem[]>;

/** One channel of sound, full scale ±1. */
export interface SoundStream {
  readonly sampleRateHz: number;
  /** May be run once. */
  readonly blocks: Blocks<Float32Array>;
}

/** What a decoder gives, channel by channel. */
export interface ChannelStream {
  readonly sampleRateHz: number;
  readonly channels: number;
  /** Begins from the start; called twice when there is more than one channel, else once. */
  start(): Blocks<Channels>;
}

/** Sound of any number of channels as one: see `mixChoice`. More than one channel is decoded twice, because that choice needs the whole. */
export const monoOf = ({ sampleRateHz, channels, start }: ChannelStream): SoundStream => {
  return { sampleRateHz, blocks: channels === 1 ? mixedBlocks(start(), 0) : choosing(start, channels) };
};

function* mixedBlocks(blocks: Blocks<Channels>, choice: number | 'mean'): Blocks<Float32Array> {
  for (let next = blocks.next(); ; next = blocks.next()) {
    if (next.done) return next.value;
    yield mixBlock(next.value, choice);
  }
}

function* choosing(start: () => Blocks<Channels>, channels: number): Blocks<Float32Array> {
  const mix = startMix(channels);
  for (const block of start()) measureMix(mix, block);
  return yield* mixedBlocks(start(), mixChoice(mix));
}

/** All of a stream as a take; `take-empty` when it holds no sample. */
export const takeOf = ({ sampleRateHz, blocks }: SoundStream): Reading<Take, TakeProblem> => {
  const parts: Float32Array[] = [];
  let length = 0;
  for (let next = blocks.next(); ; next = blocks.next()) {
    if (next.done) {
      if (length === 0) return { value: null, problems: [{ code: 'take-empty', severity: 'refused', params: {} }] };
      return { value: { samples: joinSamples(parts), clock: fileClock(sampleRateHz) }, problems: next.value };
    }
    parts.push(next.value);
    length += next.value.length;
  }
};

/** Stretches of sound as one, in their order. */
export const joinSamples = (parts: readonly Float32Array[]): Float32Array<ArrayBuffer> => {
  const all = new Float32Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
};
