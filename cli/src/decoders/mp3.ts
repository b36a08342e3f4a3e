/** MP3 files become sound: a small decoder in WebAssembly, with what encoders put before the sound taken away. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Reading } from '@evenhand/core/problem';
import { type Blocks, type Channels, monoOf, type SeekableBytes, type SoundStream, type TakeProblem } from '@evenhand/core/take';
import { frameStarts, type Mp3Start, mp3Start } from './mp3-start.ts';
import { damagedAt, notAudio, unsupported } from './problems.ts';

/** What minimp3-wasm exports: places in its memory and what was decoded. */
interface Minimp3 {
  readonly memory: WebAssembly.Memory;
  decoder_init(): void;
  decoder_set_mp3_data_size(byteCount: number): void;
  decoder_mp3_data_offset(): number;
  decoder_decode(durationSec: number): void;
  decoder_pcm_data_offset(): number;
  decode_results_sampling_rate(): number;
  decode_results_num_channels(): number;
  /** Of all channels together. */
  decode_results_num_samples(): number;
}

/** Seconds decoded at once, a few frames: where a frame lacks bytes of those before it, the decoder shifts the others of its block, so blocks have to be shorter than `FRAMES_BEFORE`. */
const BLOCK_SEC = 0.1;

/** Bytes held at once, about: the decoder wants all of a file, and an hour has 60 MB. Assumption. */
const PIECE_BYTES = 524_288;

/** Frames decoded once more before each piece: a frame leans on the two before it, and on up to 511 bytes of those (21 of the shortest, 24 bytes). @source [ISO11172] section 2.4.2.7 */
const FRAMES_BEFORE = 32;

let compiled: WebAssembly.Module | null = null;

/** The library's file; its own loader is made for browsers. */
async function library(): Promise<WebAssembly.Module> {
  compiled ??= await WebAssembly.compile(readFileSync(createRequire(import.meta.url).resolve('minimp3-wasm/dist/decoder.opt.wasm')));
  return compiled;
}

/** @param bytes of the file; read a piece at a time. */
export async function mp3Stream(bytes: SeekableBytes): Promise<Reading<SoundStream, TakeProblem>> {
  const start = mp3Start(bytes);
  if (!start) return notAudio('an MP3 file without sound in it');
  if (start.layer !== 3) return unsupported(`MPEG audio of layer ${start.layer}`);
  const module = await library();
  return {
    value: monoOf({ sampleRateHz: start.sampleRateHz, channels: start.channels, start: () => blocksOf(module, bytes, start) }),
    problems: [],
  };
}

function* blocksOf(module: WebAssembly.Module, bytes: SeekableBytes, start: Mp3Start): Blocks<Channels> {
  const { sampleRateHz, skipSamples, soundSamples } = start;
  let position = 0;
  const given = (): number => Math.max(0, Math.min(position, skipSamples + soundSamples) - skipSamples);
  try {
    for (const piece of piecesOf(bytes, start)) {
      for (const block of decodedFrom(module, bytes, piece)) {
        if (block.sampleRateHz !== sampleRateHz || block.channels !== start.channels) return [damagedAt(given() / sampleRateHz)];
        const from = Math.min(block.frames, Math.max(0, skipSamples - position));
        const to = Math.max(from, Math.min(block.frames, skipSamples + soundSamples - position));
        position += block.frames;
        if (to > from) yield { frames: to - from, channels: block.channels, sampleAt: (i, channel) => block.sampleAt(from + i, channel) };
      }
    }
  } catch {
    // The decoder stumbled over damage.
    return [damagedAt(given() / sampleRateHz)];
  }
  const early = !start.proper || (Number.isFinite(soundSamples) && given() < soundSamples);
  return early ? [damagedAt(given() / sampleRateHz)] : [];
}

/** A stretch of the file from one frame to another, and where the frames begin that are decoded once more before it. */
interface Piece {
  readonly before: number;
  readonly from: number;
  readonly to: number;
}

function* piecesOf(bytes: SeekableBytes, start: Mp3Start): Generator<Piece, void> {
  let [before, from] = [start.at, start.at];
  const last: number[] = [];
  for (const place of frameStarts(bytes, start)) {
    if (place - from >= PIECE_BYTES) {
      yield { before, from, to: place };
      [before, from] = [last[0]!, place];
    }
    last.push(place);
    if (last.length > FRAMES_BEFORE) last.shift();
  }
  yield { before, from, to: start.end };
}

interface Decoded extends Channels {
  readonly sampleRateHz: number;
}

/** The sound of a piece: what its decoder gives, less what the frames before it give by themselves. */
function* decodedFrom(module: WebAssembly.Module, bytes: SeekableBytes, { before, from, to }: Piece): Generator<Decoded, void> {
  let known = 0;
  for (const { frames } of decoded(module, bytes.read(before, from))) known += frames;
  for (const block of decoded(module, bytes.read(before, to))) {
    const skipped = Math.min(known, block.frames);
    known -= skipped;
    yield { ...block, frames: block.frames - skipped, sampleAt: (i, channel) => block.sampleAt(skipped + i, channel) };
  }
}

function* decoded(module: WebAssembly.Module, bytes: Uint8Array): Generator<Decoded, void> {
  if (bytes.length === 0) return;
  const decoder = decoderOf(module, bytes);
  for (;;) {
    decoder.decoder_decode(BLOCK_SEC);
    const channels = decoder.decode_results_num_channels();
    const count = decoder.decode_results_num_samples() / channels;
    // No sample, and no channel either: it is at its end.
    if (!(count > 0)) return;
    const pcm = new Int16Array(decoder.memory.buffer, decoder.decoder_pcm_data_offset(), count * channels);
    const sampleAt = (i: number, channel: number) => pcm[i * channels + channel]! / 32_768;
    yield { frames: count, channels, sampleRateHz: decoder.decode_results_sampling_rate(), sampleAt };
  }
}

function decoderOf(module: WebAssembly.Module, bytes: Uint8Array): Minimp3 {
  const decoder = new WebAssembly.Instance(module, {}).exports as Minimp3;
  decoder.decoder_init();
  decoder.decoder_set_mp3_data_size(bytes.length);
  new Uint8Array(decoder.memory.buffer, decoder.decoder_mp3_data_offset(), bytes.length).set(bytes);
  return decoder;
}
