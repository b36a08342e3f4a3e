/** A sound file becomes a take, whatever its format, with everything that is wrong with it. */
import { fileClock, inspect, readWav, type Take } from '@evenhand/core/take';
import { type SaidProblem, sayProblem } from '@evenhand/core/words';
import { readBytes } from './files.ts';
import { decodeFlac, isFlac } from './flac.ts';
import { doubt, refuse } from './problems.ts';
import { startsWith } from './starts-with.ts';

export interface ReadSound {
  /** Null when nothing can be heard in it. */
  readonly take: Take | null;
  readonly problems: readonly SaidProblem[];
}

/** Reads WAV or FLAC; what the bytes are decides, not the name. */
export async function readSound(file: string): Promise<ReadSound> {
  const bytes = readBytes(file);
  if (bytes.problem) return { take: null, problems: [bytes.problem] };
  const read = await decode(file, bytes.value);
  const flaws = read.take ? inspect(read.take).map((problem) => sayProblem(problem)) : [];
  const problems = [...read.problems, ...flaws];
  return { take: problems.some(({ severity }) => severity === 'refused') ? null : read.take, problems };
}

async function decode(file: string, bytes: Uint8Array): Promise<ReadSound> {
  if (isFlac(bytes)) return takeOfFlac(file, bytes);
  if (startsWith(bytes, 'MThd')) return { take: null, problems: [refuse('sound-is-midi', { file })] };
  const { value, problems } = readWav(bytes);
  return { take: value, problems: problems.map((problem) => sayProblem(problem)) };
}

async function takeOfFlac(file: string, bytes: Uint8Array): Promise<ReadSound> {
  const { samples, sampleRateHz, bits, damaged } = await decodeFlac(bytes);
  if (sampleRateHz === 0)
    return { take: null, problems: [refuse('file-unreadable', { file, reason: 'a FLAC file that breaks off at its beginning' })] };
  if (samples.length === 0 && !damaged) {
    const params = { encoding: `FLAC with ${bits} bits` };
    return { take: null, problems: [sayProblem({ code: 'take-unsupported', severity: 'refused', params })] };
  }
  const problems = damaged ? [doubt('sound-flac-damaged', { foundSec: samples.length / sampleRateHz })] : [];
  return { take: { samples, clock: fileClock(sampleRateHz) }, problems };
}
