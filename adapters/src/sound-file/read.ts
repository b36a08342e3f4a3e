/** A sound file becomes a take, whatever its format. */
import type { Reading } from '@evenhand/core/problem';
import {
  HEAD_BYTES,
  HIGHEST_RATE_HZ,
  inMemory,
  isAiff,
  LOWEST_RATE_HZ,
  monoOf,
  openAiff,
  openWav,
  type SeekableBytes,
  type SoundStream,
  type Take,
  type TakeProblem,
  takeOf,
} from '@evenhand/core/take';
import { isFlac, openFlac, READABLE_BITS } from '../flac/index.ts';

/**
 * Reads a WAV, AIFF or FLAC file; what the bytes are decides, not a name. Never throws, whatever the bytes. FLAC's library is loaded when the first such
 * file comes.
 * @returns a take (mono, full scale ±1; further channels mixed in), and what is wrong with the file. `inspect` of core/take says what is wrong with the sound.
 */
export async function readSoundFile(bytes: Uint8Array): Promise<Reading<Take, TakeProblem>> {
  const { value, problems } = await openSoundFile(inMemory(bytes));
  return value ? takeOf(value) : { value: null, problems };
}

/** The same a block at a time, for files too long to be held in memory. What is wrong behind the header comes at the end of the blocks. */
export async function openSoundFile(bytes: SeekableBytes): Promise<Reading<SoundStream, TakeProblem>> {
  const head = bytes.read(0, HEAD_BYTES);
  if (isFlac(head)) return flacStream(bytes);
  return isAiff(head) ? openAiff(bytes) : openWav(bytes);
}

async function flacStream(bytes: SeekableBytes): Promise<Reading<SoundStream, TakeProblem>> {
  const stream = await openFlac(bytes);
  if (!stream) return refused({ code: 'take-not-audio', severity: 'refused', params: { looksLike: 'a FLAC file without its beginning' } });
  const { bits, sampleRateHz } = stream;
  if (!READABLE_BITS.includes(bits)) return unsupported(`FLAC with ${bits} bits`);
  if (sampleRateHz < LOWEST_RATE_HZ || sampleRateHz > HIGHEST_RATE_HZ) return unsupported(`${sampleRateHz} Hz`);
  return { value: monoOf(stream), problems: [] };
}

const refused = (problem: TakeProblem): Reading<never, TakeProblem> => ({ value: null, problems: [problem] });

const unsupported = (encoding: string) => refused({ code: 'take-unsupported', severity: 'refused', params: { encoding } });
