/** FLAC files become samples. */
import { END_OF_STREAM, type Fed, type FrameHeader, loadFlac, type StreamHeader } from './library.ts';

/** What a FLAC file held, as far as it could be read. */
export interface DecodedFlac {
  /** 0 when not even the header could be read. */
  readonly sampleRateHz: number;
  /** Bits per sample in the file, 0 when not known. */
  readonly bits: number;
  /** Mean of all channels, full scale at ±1; whole numbers of up to 24 bits are held exactly. Up to the first damage, behind which no time could be told. */
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

/**
 * Decodes a whole FLAC file. Never throws, whatever the bytes.
 * @returns its samples; none when not even the header could be read, or when its bits are not among READABLE_BITS.
 */
export async function decodeFlac(bytes: Uint8Array): Promise<DecodedFlac> {
  const flac = await loadFlac();
  const decoder = flac.create_libflac_decoder(true);
  const blocks: Float32Array[] = [];
  let header: StreamHeader | null = null;
  let errorCount = 0;
  const status = flac.init_decoder_stream(
    decoder,
    feeder(bytes),
    (channels, frame) => {
      if (errorCount === 0 && READABLE_BITS.includes(frame.bitsPerSample)) blocks.push(mixBlock(channels, frame));
    },
    () => errorCount++,
    (found) => {
      header = found;
    },
    false,
  );
  const read = status === 0 && flac.FLAC__stream_decoder_process_until_end_of_stream(decoder);
  const ended = read && flac.FLAC__stream_decoder_get_state(decoder) === END_OF_STREAM;
  // Finishing compares the MD5 of the samples with the header's.
  const matched = flac.FLAC__stream_decoder_finish(decoder);
  flac.FLAC__stream_decoder_delete(decoder);
  return joined(header, blocks, !ended || !matched || errorCount > 0);
}

function feeder(bytes: Uint8Array): (byteCount: number) => Fed {
  let position = 0;
  return (byteCount) => {
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
  const { sampleRate = 0, bitsPerSample = 0, total_samples: promisedCount = 0 } = header ?? {};
  return { sampleRateHz: sampleRate, bits: bitsPerSample, samples, promisedCount, damaged: damaged || frameCount < promisedCount };
}

/** One block of little-endian whole numbers per channel, mixed to one. The library pads them to two or four bytes. */
function mixBlock(channels: readonly Uint8Array[], { bitsPerSample, blocksize }: FrameHeader): Float32Array {
  const scale = 1 / (2 ** (bitsPerSample - 1) * channels.length);
  const mixed = new Float32Array(blocksize);
  for (const { buffer, byteOffset, byteLength } of channels) {
    const view = new DataView(buffer, byteOffset, byteLength);
    const wide = byteLength === 4 * blocksize;
    for (let i = 0; i < blocksize; i++) mixed[i]! += (wide ? view.getInt32(4 * i, true) : view.getInt16(2 * i, true)) * scale;
  }
  return mixed;
}
