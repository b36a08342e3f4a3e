/** Samples become FLAC files, the same bytes for the same samples. */
import { EvenhandError, ParameterError } from '@evenhand/core/errors';
import { joined } from '../joined.ts';
import { loadFlac, type StreamHeader } from './library.ts';
import { BLOCK_SAMPLES, COMPRESSION_LEVEL, FED_SAMPLES, HIGHEST_RATE_HZ } from './parameters.ts';

/** Whole numbers, and how many bits they need. */
export interface WholeSamples {
  readonly bits: 16 | 24;
  readonly values: Int32Array<ArrayBuffer>;
}

const STEPS_24 = 2 ** 23;
const STEPS_BETWEEN = 2 ** 8;

/**
 * Samples as whole numbers: to the nearest of 24 bits (an error of at most 2^-24 of full scale, -144 dB), beyond full scale clipped, what is no
 * number 0; then in 16 bits if that loses nothing, as for a recording that had 16 bits. Reading them back and doing it again changes nothing.
 * @param samples full scale at ±1.
 */
export function wholeSamples(samples: Float32Array): WholeSamples {
  const values = new Int32Array(samples.length);
  let all16 = true;
  for (let i = 0; i < samples.length; i++) {
    const rounded = Math.round(samples[i]! * STEPS_24);
    const value = Math.max(-STEPS_24, Math.min(STEPS_24 - 1, Number.isNaN(rounded) ? 0 : rounded));
    values[i] = value;
    all16 &&= value % STEPS_BETWEEN === 0;
  }
  return all16 ? { bits: 16, values: values.map((value) => value / STEPS_BETWEEN) } : { bits: 24, values };
}

/**
 * A mono FLAC file: stream header, an empty comment naming the library, frames. Holds no time, no title, no padding.
 * @param samples full scale at ±1; see `wholeSamples` for how they are rounded. May be empty.
 * @param sampleRateHz a whole number from 1 to 655,350; throws ParameterError otherwise.
 */
export async function encodeFlac(samples: Float32Array, sampleRateHz: number): Promise<Uint8Array<ArrayBuffer>> {
  if (!Number.isInteger(sampleRateHz) || sampleRateHz < 1 || sampleRateHz > HIGHEST_RATE_HZ)
    throw new ParameterError('sampleRateHz', sampleRateHz, `a whole number of Hz from 1 to ${HIGHEST_RATE_HZ}`);
  const flac = await loadFlac();
  const { bits, values } = wholeSamples(samples);
  const encoder = flac.create_libflac_encoder(sampleRateHz, 1, bits, COMPRESSION_LEVEL, values.length, false, BLOCK_SAMPLES);
  const parts: Uint8Array[] = [];
  let header: StreamHeader | null = null;
  const status = flac.init_encoder_stream(
    encoder,
    (bytes) => parts.push(bytes.slice()),
    (found) => {
      header = found;
    },
    false,
  );
  let fine = encoder !== 0 && status === 0;
  for (let at = 0; fine && at < values.length; at += FED_SAMPLES) {
    const fed = values.slice(at, at + FED_SAMPLES);
    fine = flac.FLAC__stream_encoder_process_interleaved(encoder, fed, fed.length);
  }
  fine = flac.FLAC__stream_encoder_finish(encoder) && fine;
  flac.FLAC__stream_encoder_delete(encoder);
  if (!fine || header === null) throw new EvenhandError(`libFLAC did not encode ${samples.length} samples at ${sampleRateHz} Hz`);
  return withFinalHeader(parts, header);
}

/** Where STREAMINFO keeps what is known only at the end. @source [RFC9639] section 8.2, counted from the first byte of the file. */
const AT = { smallestFrame: 12, largestFrame: 15, md5: 26 };

/** The file in one piece, with frame sizes and MD5 put where the encoder, which cannot go back, left zeros. */
function withFinalHeader(parts: readonly Uint8Array[], header: StreamHeader): Uint8Array<ArrayBuffer> {
  const bytes = joined(parts);
  const put24 = (place: number, value: number) => bytes.set([value >> 16, value >> 8, value], place);
  put24(AT.smallestFrame, header.min_framesize);
  put24(AT.largestFrame, header.max_framesize);
  for (let i = 0; i < 16; i++) bytes[AT.md5 + i] = Number.parseInt(header.md5sum.slice(2 * i, 2 * i + 2), 16);
  return bytes;
}
