/** FLAC files become samples, by libFLAC compiled to JavaScript (decision 0020). */
import { createRequire } from 'node:module';
import { startsWith } from './starts-with.ts';

/** What a FLAC file held, as far as it could be read. */
export interface DecodedFlac {
  /** 0 when not even the header could be read. */
  readonly sampleRateHz: number;
  /** Bits per sample. The library hands over 8, 16 and 24 whole; of others there are no samples. */
  readonly bits: number;
  /** Mean of all channels, full scale at ±1. */
  readonly samples: Float32Array;
  /** Some frames were damaged, or the file ends early. */
  readonly damaged: boolean;
}

/** `fLaC`, the four bytes every FLAC stream begins with (RFC 9639, section 6). */
export const isFlac = (bytes: Uint8Array): boolean => startsWith(bytes, 'fLaC');

/**
 * @param bytes of a whole FLAC file.
 * @returns its samples; no samples when not even the header could be read.
 */
export async function decodeFlac(bytes: Uint8Array): Promise<DecodedFlac> {
  const flac = await loadLibrary();
  const decoder = flac.create_libflac_decoder(true);
  const blocks: Float32Array[] = [];
  let header: StreamHeader | null = null;
  let errorCount = 0;
  const take = (channels: readonly Uint8Array[], { bitsPerSample, blocksize }: Frame) => {
    if (READABLE_BITS.includes(bitsPerSample)) blocks.push(mixBlock(channels, blocksize, bitsPerSample));
  };
  const status = flac.init_decoder_stream(
    decoder,
    feeder(bytes),
    take,
    () => errorCount++,
    (found) => {
      header = found;
    },
    false,
  );
  const ended =
    status === 0 && flac.FLAC__stream_decoder_process_until_end_of_stream(decoder) && flac.FLAC__stream_decoder_get_state(decoder) === END_OF_STREAM;
  flac.FLAC__stream_decoder_finish(decoder);
  flac.FLAC__stream_decoder_delete(decoder);
  return joined(header, blocks, !ended || errorCount > 0);
}

async function loadLibrary(): Promise<FlacLibrary> {
  const flac: FlacLibrary = createRequire(import.meta.url)('libflacjs/dist/libflac.js');
  if (!flac.isReady()) await new Promise((resolve) => flac.on('ready', () => resolve(null)));
  return flac;
}

/** FLAC__STREAM_DECODER_END_OF_STREAM of libFLAC. */
const END_OF_STREAM = 4;

/** Sample sizes that the library hands over whole; it guesses bytes of others wrongly. */
const READABLE_BITS = [8, 16, 24];

interface Frame {
  readonly bitsPerSample: number;
  readonly blocksize: number;
}

interface StreamHeader {
  readonly sampleRate: number;
  readonly bitsPerSample: number;
  readonly total_samples: number;
}

/** The part of the library that is used here. */
interface FlacLibrary {
  isReady(): boolean;
  on(event: 'ready', then: () => void): void;
  create_libflac_decoder(verify: boolean): number;
  init_decoder_stream(
    decoder: number,
    read: (byteCount: number) => { buffer: Uint8Array; readDataLength: number; error: boolean },
    write: (channels: readonly Uint8Array[], frame: Frame) => void,
    fail: () => void,
    meta: (header: StreamHeader) => void,
    ogg: boolean,
  ): number;
  FLAC__stream_decoder_process_until_end_of_stream(decoder: number): boolean;
  FLAC__stream_decoder_get_state(decoder: number): number;
  FLAC__stream_decoder_finish(decoder: number): boolean;
  FLAC__stream_decoder_delete(decoder: number): void;
}

function feeder(bytes: Uint8Array) {
  let position = 0;
  return (byteCount: number) => {
    const buffer = bytes.subarray(position, position + byteCount);
    position += buffer.length;
    return { buffer, readDataLength: buffer.length, error: false };
  };
}

function joined(header: StreamHeader | null, blocks: readonly Float32Array[], damaged: boolean): DecodedFlac {
  const frameCount = blocks.reduce((sum, block) => sum + block.length, 0);
  const samples = new Float32Array(frameCount);
  let at = 0;
  for (const block of blocks) {
    samples.set(block, at);
    at += block.length;
  }
  return {
    sampleRateHz: header?.sampleRate ?? 0,
    bits: header?.bitsPerSample ?? 0,
    samples,
    damaged: damaged || frameCount < (header?.total_samples ?? 0),
  };
}

/** One block of little-endian whole numbers per channel, mixed to one: 2 bytes each for 8 and 16 bits, 4 bytes for 24. */
function mixBlock(channels: readonly Uint8Array[], blocksize: number, bits: number): Float32Array {
  const scale = 1 / (2 ** (bits - 1) * channels.length);
  const mixed = new Float32Array(blocksize);
  for (const bytes of channels) {
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    for (let i = 0; i < blocksize; i++) mixed[i]! += (bits === 24 ? view.getInt32(4 * i, true) : view.getInt16(2 * i, true)) * scale;
  }
  return mixed;
}
