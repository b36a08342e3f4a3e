/** FLAC files become samples, a frame at a time. */
import {
  type Blocks,
  type ChannelStream,
  type Channels,
  inMemory,
  joinSamples,
  monoOf,
  type SeekableBytes,
  type TakeProblem,
} from '@evenhand/core/take';
import { END_OF_STREAM, type Fed, type FlacLibrary, type FrameHeader, loadFlac, type StreamHeader } from './library.ts';

/** A FLAC file whose header was read. Reading it to the end tells whether frames are damaged (`take-damaged`); what is given ends at the first damage, behind which no time could be told. */
export interface FlacStream extends ChannelStream {
  /** Bits per sample in the file. */
  readonly bits: number;
  /** Samples per channel that the header promises, 0 when it does not say. */
  readonly promisedCount: number;
}

/** What a FLAC file held, as far as it could be read. */
export interface DecodedFlac {
  /** 0 when not even the header could be read. */
  readonly sampleRateHz: number;
  /** Bits per sample in the file, 0 when not known. */
  readonly bits: number;
  /** All channels as one (see `monoOf`), full scale at ±1; whole numbers of up to 24 bits are held exactly. Up to the first damage. */
  readonly samples: Float32Array<ArrayBuffer>;
  /** Samples that the header promises, 0 when it does not say. */
  readonly promisedCount: number;
  /** Some frames were damaged, or the file ends early, or the samples are not those that were written. */
  readonly damaged: boolean;
}

/** Bits per sample that can be read: the library hands out other widths garbled. */
export const READABLE_BITS: readonly number[] = [8, 16, 24];

/** `fLaC`, the four bytes every FLAC stream begins with. @source [RFC9639] section 6 */
export const isFlac = (bytes: Uint8Array): boolean => String.fromCharCode(...bytes.subarray(0, 4)) === 'fLaC';

/** Reads the header of a FLAC file; null when it has none. Never throws, whatever the bytes. */
export async function openFlac(bytes: SeekableBytes): Promise<FlacStream | null> {
  const flac = await loadFlac();
  const header = headerOf(flac, bytes);
  if (!header || header.sampleRate === 0 || header.channels === 0) return null;
  const { sampleRate: sampleRateHz, channels, bitsPerSample: bits, total_samples: promisedCount } = header;
  return { sampleRateHz, channels, bits, promisedCount, start: () => frames(flac, bytes, header) };
}

/**
 * Decodes a whole FLAC file. Never throws, whatever the bytes.
 * @returns its samples; none when not even the header could be read, or when its bits are not among READABLE_BITS.
 */
export async function decodeFlac(bytes: Uint8Array): Promise<DecodedFlac> {
  const stream = await openFlac(inMemory(bytes));
  if (!stream) return { sampleRateHz: 0, bits: 0, samples: new Float32Array(0), promisedCount: 0, damaged: true };
  const { sampleRateHz, bits, promisedCount } = stream;
  const parts: Float32Array[] = [];
  const { blocks } = monoOf(stream);
  let next = blocks.next();
  for (; !next.done; next = blocks.next()) parts.push(next.value);
  return { sampleRateHz, bits, samples: joinSamples(parts), promisedCount, damaged: next.value.length > 0 };
}

function headerOf(flac: FlacLibrary, bytes: SeekableBytes): StreamHeader | null {
  const found: StreamHeader[] = [];
  const decoder = begin(flac, bytes, { onHeader: (header) => found.push(header), onBlock: () => {}, onError: () => {} });
  if (decoder === 0) return null;
  flac.FLAC__stream_decoder_process_until_end_of_metadata(decoder);
  end(flac, decoder);
  return found[0] ?? null;
}

function* frames(flac: FlacLibrary, bytes: SeekableBytes, header: StreamHeader): Blocks<Channels> {
  const waiting: Channels[] = [];
  let errorCount = 0;
  let frameCount = 0;
  const decoder = begin(flac, bytes, {
    onHeader: () => {},
    onBlock(channels, frame) {
      const fits = channels.length === header.channels && READABLE_BITS.includes(frame.bitsPerSample);
      if (errorCount === 0 && fits) waiting.push(blockOf(channels, frame));
      else errorCount++;
    },
    onError: () => errorCount++,
  });
  let matched = false;
  try {
    while (decoder !== 0 && errorCount === 0 && flac.FLAC__stream_decoder_get_state(decoder) < END_OF_STREAM) {
      if (!flac.FLAC__stream_decoder_process_single(decoder)) break;
      for (const block of waiting.splice(0)) {
        frameCount += block.frames;
        yield block;
      }
    }
    const ended = decoder !== 0 && flac.FLAC__stream_decoder_get_state(decoder) === END_OF_STREAM;
    matched = ended && errorCount === 0;
  } finally {
    // Finishing compares the MD5 of the samples with the header's.
    matched = decoder !== 0 && end(flac, decoder) && matched;
  }
  return matched && frameCount >= header.total_samples ? [] : [damagedAt(frameCount / header.sampleRate)];
}

const damagedAt = (foundSec: number): TakeProblem => ({ code: 'take-damaged', severity: 'doubtful', at: foundSec, params: { foundSec } });

interface Told {
  readonly onHeader: (header: StreamHeader) => void;
  readonly onBlock: (channels: readonly Uint8Array[], frame: FrameHeader) => void;
  readonly onError: () => void;
}

/** A decoder at the beginning of the file, 0 when there is none to be had. */
function begin(flac: FlacLibrary, bytes: SeekableBytes, { onHeader, onBlock, onError }: Told): number {
  const decoder = flac.create_libflac_decoder(true);
  if (decoder === 0) return 0;
  if (flac.init_decoder_stream(decoder, feeder(bytes), onBlock, onError, onHeader, false) === 0) return decoder;
  flac.FLAC__stream_decoder_delete(decoder);
  return 0;
}

function end(flac: FlacLibrary, decoder: number): boolean {
  const matched = flac.FLAC__stream_decoder_finish(decoder);
  flac.FLAC__stream_decoder_delete(decoder);
  return matched;
}

function feeder(bytes: SeekableBytes): (byteCount: number) => Fed {
  let position = 0;
  return (byteCount) => {
    const buffer = bytes.read(position, position + byteCount);
    position += buffer.length;
    return { buffer, readDataLength: buffer.length, error: false };
  };
}

/** Little-endian whole numbers per channel; the library pads them to two or four bytes. */
function blockOf(channels: readonly Uint8Array[], { bitsPerSample, blocksize }: FrameHeader): Channels {
  const scale = 1 / 2 ** (bitsPerSample - 1);
  const views = channels.map(({ buffer, byteOffset, byteLength }) => new DataView(buffer, byteOffset, byteLength));
  const wide = channels[0]!.byteLength === 4 * blocksize;
  const sampleAt = wide
    ? (frame: number, channel: number) => views[channel]!.getInt32(4 * frame, true) * scale
    : (frame: number, channel: number) => views[channel]!.getInt16(2 * frame, true) * scale;
  return { frames: blocksize, channels: channels.length, sampleAt };
}
