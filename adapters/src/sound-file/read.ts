/** A sound file becomes a take, whatever its format. */
import type { Reading } from '@evenhand/core/problem';
import { fileClock, readWav, type Take, type TakeProblem } from '@evenhand/core/take';
import { decodeFlac, isFlac, READABLE_BITS } from '../flac/index.ts';

/**
 * Reads a WAV or FLAC file; what the bytes are decides, not a name. Never throws, whatever the bytes. FLAC's library is loaded when the first such
 * file comes.
 * @returns a take (mono, full scale ±1; further channels mixed in), and what is wrong with the file. `inspect` of core/take says what is wrong with the sound.
 */
export async function readSoundFile(bytes: Uint8Array): Promise<Reading<Take, TakeProblem>> {
  return isFlac(bytes) ? takeOfFlac(bytes) : readWav(bytes);
}

async function takeOfFlac(bytes: Uint8Array): Promise<Reading<Take, TakeProblem>> {
  const { samples, sampleRateHz, bits, damaged } = await decodeFlac(bytes);
  if (sampleRateHz === 0) return refused({ code: 'take-not-audio', severity: 'refused', params: { looksLike: 'a FLAC file without its beginning' } });
  if (!READABLE_BITS.includes(bits))
    return refused({ code: 'take-unsupported', severity: 'refused', params: { encoding: `FLAC with ${bits} bits` } });
  if (samples.length === 0) return refused({ code: 'take-empty', severity: 'refused', params: {} });
  const foundSec = samples.length / sampleRateHz;
  const problems: TakeProblem[] = damaged ? [{ code: 'take-damaged', severity: 'doubtful', at: foundSec, params: { foundSec } }] : [];
  return { value: { samples, clock: fileClock(sampleRateHz) }, problems };
}

const refused = (problem: TakeProblem): Reading<Take, TakeProblem> => ({ value: null, problems: [problem] });
