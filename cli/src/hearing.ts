/** A file is heard, whatever its format: what was struck in it, and everything that is wrong with it. */
import { earForTheEnd, finish, type Heard, step } from '@evenhand/core/stroke';
import { allBytes, HEAD_BYTES, inspectBlock, inspected, type SoundStream, startInspection } from '@evenhand/core/take';
import { type SaidProblem, sayProblem } from '@evenhand/core/words';
import { openBytes } from './file-bytes.ts';
import { isMidi, readMidi } from './midi-file.ts';
import { hearMidi } from './midi-strokes.ts';
import { doubt, refuse } from './problems.ts';
import { openSound } from './sound.ts';

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
 * Hears a sound file (WAV, AIFF, FLAC, MP3, Ogg, Opus, WebM; what else an installed ffmpeg reads) or MIDI; what the bytes are decides, not the name.
 * The sound is never held as a whole, so an hour takes no more memory than some minutes.
 * @param clickTimesSec when the click sounded, if that is known.
 */
export async function hearFile(file: string, clickTimesSec: readonly number[] | null): Promise<ReadHearing> {
  const bytes = openBytes(file);
  if (bytes.problem) return { hearing: null, problems: [bytes.problem] };
  try {
    if (isMidi(bytes.value.read(0, HEAD_BYTES))) return hearingOfMidi(file, allBytes(bytes.value).slice());
    const { stream, problems, done } = await openSound(file, bytes.value);
    try {
      return stream ? hearStream(stream, clickTimesSec) : { hearing: null, problems };
    } finally {
      done();
    }
  } finally {
    bytes.value.close();
  }
}

/** Hears a stream to its end. */
export function hearStream({ sampleRateHz, blocks }: SoundStream, clickTimesSec: readonly number[] | null): ReadHearing {
  const ear = earForTheEnd({ sampleRateHz, ...(clickTimesSec ? { clickTimesSec } : {}) });
  const inspection = startInspection(sampleRateHz);
  let next = blocks.next();
  for (; !next.done; next = blocks.next()) {
    inspectBlock(inspection, next.value);
    step(ear, next.value);
  }
  const heard = finish(ear);
  const times = heard.strokes.map(({ timeSec }) => timeSec);
  const problems = [...next.value, ...inspected(inspection, times)];
  const said = problems.map((problem) => sayProblem(problem));
  if (problems.some(({ severity }) => severity === 'refused')) return { hearing: null, problems: said };
  return { hearing: { ...heard, durationSec: inspection.frames / sampleRateHz, sampleRateHz, levelsFrom: 'sound' }, problems: said };
}

function hearingOfMidi(file: string, bytes: Uint8Array): ReadHearing {
  const { notes, durationSec, damaged } = readMidi(bytes);
  if (notes.length === 0) return { hearing: null, problems: [refuse(damaged ? 'midi-unreadable' : 'midi-without-notes', { file })] };
  const problems = damaged ? [doubt('midi-damaged', { file })] : [];
  return { hearing: { ...hearMidi(notes), durationSec, sampleRateHz: null, levelsFrom: 'velocity' }, problems };
}
