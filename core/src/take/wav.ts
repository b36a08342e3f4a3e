/** Reads and writes WAV files: RIFF and RF64, PCM, float, A-law and mu-law, any number of channels. */
import type { Reading } from '../problem.ts';
import { inMemory, type SeekableBytes, tagAt, viewOf } from './bytes.ts';
import { looksLike } from './looks.ts';
import * as P from './parameters.ts';
import { pcmStream } from './pcm.ts';
import { decoderFor, type Format } from './sampleformats.ts';
import { monoOf, type SoundStream, takeOf } from './stream.ts';
import type { Take, TakeProblem } from './take.ts';

interface Chunks {
  readonly format: Format | null;
  readonly formatFound: boolean;
  /** Byte range of the samples; null without a data chunk. */
  readonly data: { readonly from: number; readonly to: number; readonly promised: number } | null;
}

const CONTAINERS: readonly string[] = ['RIFF', 'RIFX', 'RF64', 'BW64'];

/** Whether bytes begin as a WAV file does. */
export const isWav = (head: Uint8Array): boolean => CONTAINERS.includes(tagAt(head, 0)) && tagAt(head, 8) === 'WAVE';

/** Bytes at the beginning that are enough to tell any sound file by. */
export const HEAD_BYTES = 4096;

/**
 * A WAV file as a take (mono, full scale ±1). Never throws, whatever the bytes. A file cut short is read to its end and doubtful; sizes that a
 * streaming recorder left at 0 or all ones mean "to the end"; samples that are no numbers count as 0; further channels are mixed in.
 * @source [RIFF] [RF64]
 */
export const readWav = (bytes: Uint8Array): Reading<Take, TakeProblem> => {
  const { value, problems } = openWav(inMemory(bytes));
  return value ? takeOf(value) : { value: null, problems };
};

/** The same a block at a time, for files too long to be held in memory. */
export const openWav = (bytes: SeekableBytes): Reading<SoundStream, TakeProblem> => {
  if (bytes.byteCount === 0) return refused({ code: 'take-empty', severity: 'refused', params: {} });
  const head = bytes.read(0, HEAD_BYTES);
  if (!isWav(head)) return refused({ code: 'take-not-audio', severity: 'refused', params: { looksLike: looksLike(head) } });
  const little = tagAt(head, 0) !== 'RIFX';
  const chunks = readChunks(bytes, little);
  if (!chunks.formatFound)
    return refused({ code: 'take-not-audio', severity: 'refused', params: { looksLike: 'a WAV file without its format chunk' } });
  if (!chunks.format) return unsupported('damaged format chunk');
  return openSamples(bytes, chunks.format, chunks.data, little);
};

const refused = (problem: TakeProblem): Reading<never, TakeProblem> => ({ value: null, problems: [problem] });

const unsupported = (encoding: string) => refused({ code: 'take-unsupported', severity: 'refused', params: { encoding } });

const openSamples = (bytes: SeekableBytes, format: Format, data: Chunks['data'], little: boolean): Reading<SoundStream, TakeProblem> => {
  const decode = decoderFor(format, little);
  if (typeof decode === 'string') return unsupported(decode);
  const { sampleRateHz, blockAlign, channels } = format;
  if (sampleRateHz < P.LOWEST_RATE_HZ || sampleRateHz > P.HIGHEST_RATE_HZ) return unsupported(`${sampleRateHz} Hz`);
  const frames = data ? Math.floor((data.to - data.from) / blockAlign) : 0;
  if (!data || frames === 0) return refused({ code: 'take-empty', severity: 'refused', params: {} });
  const promised = Math.floor(data.promised / blockAlign);
  const params = { expectedSec: promised / sampleRateHz, foundSec: frames / sampleRateHz };
  const problems: readonly TakeProblem[] = promised > frames ? [{ code: 'take-cut-short', severity: 'doubtful', at: params.foundSec, params }] : [];
  const body = { from: data.from, frames, channels, blockAlign, sampleRateHz, decode };
  return { value: monoOf(pcmStream(bytes, body, problems)), problems: [] };
};

const STREAMING_SIZES = [0, 0xffffffff];

/** No file has more chunks before its samples; damaged ones of no length would be walked for ever. Assumption. */
const MOST_CHUNKS = 10_000;

/** Walks the chunks up to the data; a data size of 0 or all ones, and every RF64 one, is taken from ds64 or means the rest of the file. */
const readChunks = (bytes: SeekableBytes, little: boolean): Chunks => {
  let format: Format | null = null;
  let formatFound = false;
  let wideDataSize: number | null = null;
  for (let at = 12, count = 0; at + 8 <= bytes.byteCount && count < MOST_CHUNKS; count++) {
    const head = bytes.read(at, at + 8 + FORMAT_BYTES);
    const view = viewOf(head);
    const id = tagAt(head, 0);
    const size = view.getUint32(4, little);
    const body = at + 8;
    if (id === 'ds64' && view.byteLength >= 24) wideDataSize = Number(view.getBigUint64(16, little));
    if (id === 'fmt ') {
      formatFound = true;
      format = readFormat(view, { size: Math.min(size, view.byteLength - 8), little });
    }
    if (id === 'data') return { format, formatFound, data: dataRange(bytes, body, { size, wideDataSize }) };
    at = body + size + (size & 1);
  }
  return { format, formatFound, data: null };
};

const dataRange = (bytes: SeekableBytes, from: number, { size, wideDataSize }: { size: number; wideDataSize: number | null }) => {
  const rest = bytes.byteCount - from;
  const wide = size === 0xffffffff && wideDataSize !== null && wideDataSize > 0 ? wideDataSize : null;
  const promised = wide ?? (STREAMING_SIZES.includes(size) && !onlyChunksFollow(bytes, from, size) ? rest : size);
  return { from, to: from + Math.min(promised, rest), promised };
};

/** An honest empty data chunk has nothing or further chunks behind it; a streamed one has samples. */
const onlyChunksFollow = (bytes: SeekableBytes, from: number, size: number): boolean =>
  size === 0 && (from >= bytes.byteCount || /^(LIST|JUNK|id3 |cue |smpl|bext|fact|afsp)$/i.test(tagAt(bytes.read(from, from + 4), 0)));

/** The longest format chunk that says something: WAVE_FORMAT_EXTENSIBLE. */
const FORMAT_BYTES = 40;

/** @param view from the chunk's id on. */
const readFormat = (view: DataView, { size, little }: { size: number; little: boolean }): Format | null => {
  if (size < 16) return null;
  const tagNumber = view.getUint16(8, little);
  const extensible = tagNumber === 0xfffe && size >= 26;
  const format = {
    tag: extensible ? view.getUint16(32, little) : tagNumber,
    channels: view.getUint16(10, little),
    sampleRateHz: view.getUint32(12, little),
    blockAlign: view.getUint16(20, little),
    bits: view.getUint16(22, little),
  };
  const bytesPerSample = Math.ceil(format.bits / 8);
  if (format.channels === 0 || format.bits === 0) return null;
  return { ...format, blockAlign: Math.max(format.blockAlign, format.channels * bytesPerSample) };
};

/** How samples are stored on writing. */
export interface WavOptions {
  readonly bits: 16 | 24 | 'float32';
  /** Channels that lie in the samples in turn; default 1. */
  readonly channelCount?: 1 | 2;
}

/**
 * A WAV file, mono unless said: the canonical header of 44 bytes, then the samples; beyond ±1 integers are clipped.
 * One second at 44.1 kHz in 16 bits has 88,244 bytes.
 */
export const writeWav = (samples: Float32Array, sampleRateHz: number, { bits, channelCount = 1 }: WavOptions): Uint8Array => {
  const width = bits === 'float32' ? 4 : bits / 8;
  const dataBytes = samples.length * width;
  const bytes = new Uint8Array(44 + dataBytes + (dataBytes & 1));
  const view = new DataView(bytes.buffer);
  const text = (at: number, letters: string) => {
    for (let i = 0; i < 4; i++) view.setUint8(at + i, letters.charCodeAt(i));
  };
  text(0, 'RIFF');
  view.setUint32(4, bytes.length - 8, true);
  text(8, 'WAVE');
  text(12, 'fmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, bits === 'float32' ? 3 : 1, true);
  view.setUint16(22, channelCount, true);
  view.setUint32(24, sampleRateHz, true);
  view.setUint32(28, sampleRateHz * width * channelCount, true);
  view.setUint16(32, width * channelCount, true);
  view.setUint16(34, 8 * width, true);
  text(36, 'data');
  view.setUint32(40, dataBytes, true);
  for (let i = 0; i < samples.length; i++) writeSample(view, 44 + i * width, { value: samples[i]!, bits });
  return bytes;
};

const writeSample = (view: DataView, at: number, { value, bits }: { value: number; bits: WavOptions['bits'] }): void => {
  if (bits === 'float32') {
    view.setFloat32(at, value, true);
    return;
  }
  const full = 2 ** (bits - 1);
  const whole = Math.max(-full, Math.min(full - 1, Math.round(value * full)));
  view.setInt16(at + bits / 8 - 2, whole >> (bits - 16), true);
  if (bits === 24) view.setUint8(at, whole & 0xff);
};
