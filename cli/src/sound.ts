/** A sound file of any kind becomes a stream of sound: by our own readers, by decoders, by an installed ffmpeg. */
import { openSoundFile } from '@evenhand/adapters/sound-file';
import type { Reading } from '@evenhand/core/problem';
import { HEAD_BYTES, looksLike, type SeekableBytes, type SoundStream, type TakeProblem } from '@evenhand/core/take';
import { type SaidProblem, sayProblem } from '@evenhand/core/words';
import { openCompressed } from './decoders/index.ts';
import { convertedByFfmpeg, hasFfmpeg } from './ffmpeg.ts';
import { openBytes } from './file-bytes.ts';
import { refuse } from './problems.ts';

export interface OpenedSound {
  /** Null when there is none to be had. */
  readonly stream: SoundStream | null;
  readonly problems: readonly SaidProblem[];
  /** To be called when the stream was read. */
  done(): void;
}

/** What ffmpeg is asked to read; any other file that is no sound file is told to be what it is. */
const LEFT_TO_FFMPEG: readonly string[] = ['an M4A or MP4 file', 'an AU file', 'a CAF file', 'a WMA file', 'an AMR file', 'an AAC file'];

/** @param bytes of `file`, already open. */
export async function openSound(file: string, bytes: SeekableBytes): Promise<OpenedSound> {
  const looks = looksLike(bytes.read(0, HEAD_BYTES));
  const { value, problems } = await openByOurselves(bytes);
  if (value) return { stream: value, problems: [], done: () => {} };
  const unknown = problems.some(({ code }) => code === 'take-unsupported') || LEFT_TO_FFMPEG.includes(looks);
  if (!unknown) return refused(problems.map((problem) => sayProblem(problem)));
  const converted = convertedByFfmpeg(file);
  if (converted !== 'none') return openConverted(converted);
  const said = LEFT_TO_FFMPEG.includes(looks) && !hasFfmpeg() ? [refuse('sound-needs-ffmpeg', { file, looksLike: looks })] : [];
  return refused(said.length > 0 ? said : problems.map((problem) => sayProblem(problem)));
}

/** By our own readers and decoders. Never throws, whatever the bytes. */
export const openByOurselves = async (bytes: SeekableBytes): Promise<Reading<SoundStream, TakeProblem>> =>
  (await openCompressed(bytes)) ?? (await openSoundFile(bytes));

const refused = (problems: readonly SaidProblem[]): OpenedSound => ({ stream: null, problems, done: () => {} });

async function openConverted({ wav, remove }: { readonly wav: string; remove(): void }): Promise<OpenedSound> {
  const bytes = openBytes(wav);
  const done = (): void => {
    bytes.value?.close();
    remove();
  };
  if (bytes.problem) return { stream: null, problems: [bytes.problem], done };
  const { value, problems } = await openSoundFile(bytes.value);
  return { stream: value, problems: problems.map((problem) => sayProblem(problem)), done };
}
