/** MP3 files become sound: a small decoder in WebAssembly, with what encoders put before the sound taken away. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Reading } from '@evenhand/core/problem';
import { type Blocks, type Channels, monoOf, type SoundStream, type TakeProblem } from '@evenhand/core/take';
import { type Mp3Start, mp3Start } from './mp3-start.ts';
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

/** Seconds decoded at once. */
const BLOCK_SEC = 1;

let compiled: WebAssembly.Module | null = null;

/** The library's file; its own loader is made for browsers. */
async function library(): Promise<WebAssembly.Module> {
  compiled ??= await WebAssembly.compile(readFileSync(createRequire(import.meta.url).resolve('minimp3-wasm/dist/decoder.opt.wasm')));
  return compiled;
}

/** @param bytes the whole file. */
export async function mp3Stream(bytes: Uint8Array): Promise<Reading<SoundStream, TakeProblem>> {
  const start = mp3Start(bytes);
  if (!start) return notAudio('an MP3 file without sound in it');
  if (start.layer !== 3) return unsupported(`MPEG audio of layer ${start.layer}`);
  const module = await library();
  return {
    value: monoOf({ sampleRateHz: start.sampleRateHz, channels: start.channels, start: () => blocksOf(module, bytes, start) }),
    problems: [],
  };
}

function* blocksOf(module: WebAssembly.Module, bytes: Uint8Array, start: Mp3Start): Blocks<Channels> {
  const { sampleRateHz, channels, skipSamples, soundSamples } = start;
  const decoder = decoderOf(module, bytes.subarray(start.at, start.end));
  let position = 0;
  const given = (): number => Math.max(0, Math.min(position, skipSamples + soundSamples) - skipSamples);
  try {
    for (;;) {
      decoder.decoder_decode(BLOCK_SEC);
      const count = decoder.decode_results_num_samples() / channels;
      if (count === 0) break;
      if (decoder.decode_results_sampling_rate() !== sampleRateHz || decoder.decode_results_num_channels() !== channels)
        return [damagedAt(given() / sampleRateHz)];
      const pcm = new Int16Array(decoder.memory.buffer, decoder.decoder_pcm_data_offset(), count * channels);
      const from = Math.min(count, Math.max(0, skipSamples - position));
      const to = Math.max(from, Math.min(count, skipSamples + soundSamples - position));
      position += count;
      if (to > from) yield { frames: to - from, channels, sampleAt: (i, channel) => pcm[(from + i) * channels + channel]! / 32_768 };
    }
  } catch {
    // The decoder stumbled over damage.
    return [damagedAt(given() / sampleRateHz)];
  }
  const early = !start.proper || (Number.isFinite(soundSamples) && given() < soundSamples);
  return early ? [damagedAt(given() / sampleRateHz)] : [];
}

function decoderOf(module: WebAssembly.Module, bytes: Uint8Array): Minimp3 {
  const decoder = new WebAssembly.Instance(module, {}).exports as Minimp3;
  decoder.decoder_init();
  decoder.decoder_set_mp3_data_size(bytes.length);
  new Uint8Array(decoder.memory.buffer, decoder.decoder_mp3_data_offset(), bytes.length).set(bytes);
  return decoder;
}
