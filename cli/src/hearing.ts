/** A file is heard, whatever its format: what was struck in it, and everything that is wrong with it. */
import { readSoundFile } from '@evenhand/adapters/sound-file';
import { type Heard, hear } from '@evenhand/core/stroke';
import { inspect } from '@evenhand/core/take';
import { type SaidProblem, sayProblem } from '@evenhand/core/words';
import { readBytes } from './files.ts';
import { isMidi, readMidi } from './midi-file.ts';
import { hearMidi } from './midi-strokes.ts';
import { doubt, refuse } from './problems.ts';

/** What a file holds, by ear or, from a MIDI file, by what the kit itself wrote down. */
export interface Hearing extends Heard {
  readonly durationSec: number;
  /** Null for a MIDI file. */
  readonly sampleRateHz: number | null;
  /** A MIDI file has velocities, not volumes. */
  readonly levelsFrom: 'sound' | 'velocity';
}

export interface ReadHearing {
  /** Null when nothing can be heard in it. */
  readonly hearing: Hearing | null;
  readonly problems: readonly SaidProblem[];
}

/**
 * Hears WAV, FLAC or MIDI; what the bytes are decides, not the name.
 * @param clickTimesSec when the click sounded, if that is known.
 */
export async function hearFile(file: string, clickTimesSec: readonly number[] | null): Promise<ReadHearing> {
  const bytes = readBytes(file);
  if (bytes.problem) return { hearing: null, problems: [bytes.problem] };
  if (isMidi(bytes.value)) return hearingOfMidi(file, bytes.value);
  const { value: take, problems: ofFile } = await readSoundFile(bytes.value);
  const problems = [...ofFile, ...(take ? inspect(take) : [])];
  const said = problems.map((problem) => sayProblem(problem));
  if (!take || problems.some(({ severity }) => severity === 'refused')) return { hearing: null, problems: said };
  const heard = hear(take, clickTimesSec ? { clickTimesSec } : {});
  const { sampleRateHz } = take.clock;
  return { hearing: { ...heard, durationSec: take.samples.length / sampleRateHz, sampleRateHz, levelsFrom: 'sound' }, problems: said };
}

function hearingOfMidi(file: string, bytes: Uint8Array): ReadHearing {
  const { notes, durationSec, damaged } = readMidi(bytes);
  if (notes.length === 0) return { hearing: null, problems: [refuse('midi-without-notes', { file })] };
  const problems = damaged ? [doubt('midi-damaged', { file })] : [];
  return { hearing: { ...hearMidi(notes), durationSec, sampleRateHz: null, levelsFrom: 'velocity' }, problems };
}
