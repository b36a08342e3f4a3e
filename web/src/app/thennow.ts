/** Then and now leave the app: as sound, as a picture, as one page. */
import { expectedCycle } from '@evenhand/core/exercise';
import { type ShownShape, thenNowPicture } from '@evenhand/core/picture';
import { type HeardAs, type SoundingTake, type ThenNowSound, thenNowSound } from '@evenhand/core/progress';
import { writeWav } from '@evenhand/core/take';
import { saveFile } from '../backup/download.ts';
import type { Compared } from './comparing.ts';
import { playerPart } from './ownfiles.ts';
import { spoken } from './said.ts';
import { exerciseOfSaved } from './savedplan.ts';
import { fileName } from './takealong.ts';
import { pageOf } from './thennowpage.ts';

/** About how long each stretch is: long enough to get into it, short enough to be remembered. Assumption. */
const STRETCH_SEC = 5;

/** Both takes as one sound; null when they cannot be laid alongside. */
export const soundOfBoth = (then: SoundingTake, now: SoundingTake, as: HeardAs): ThenNowSound | null =>
  thenNowSound(then, now, { as, wantedSec: STRETCH_SEC });

/** The sound as a file. */
export function clipOf({ left, right, sampleRateHz }: ThenNowSound): Uint8Array<ArrayBuffer> {
  const samples = new Float32Array(2 * left.length);
  for (let i = 0; i < left.length; i++) {
    samples[2 * i] = left[i]!;
    samples[2 * i + 1] = right[i]!;
  }
  return new Uint8Array(writeWav(samples, sampleRateHz, { bits: 16, channelCount: 2 }));
}

/** The picture to show, as SVG text. */
export function pictureOf({ blocks, thenDay, nowDay, told, volumes, measured }: Compared, shape: ShownShape): string {
  const exercise = exerciseOfSaved(blocks[1].body.exercise);
  return thenNowPicture(
    { day: thenDay, measurement: measured[0] },
    { day: nowDay, measurement: measured[1] },
    {
      shape,
      id: `then-now-${shape}`,
      cycle: expectedCycle(exercise),
      sticking: exercise.sticking,
      perBeat: exercise.perBeat,
      said: [...told.said, ...volumes.said],
      language: spoken(),
    },
  );
}

/** Saves a picture. @returns the name of the file. */
export async function savePicture(compared: Compared, shape: ShownShape, kind: 'png' | 'svg'): Promise<string> {
  const svg = pictureOf(compared, shape);
  const file = kind === 'svg' ? new Blob([svg], { type: 'image/svg+xml' }) : await asPng(svg);
  return saved(file, compared, `${shape}.${kind}`);
}

/** Saves the sound. @returns the name of the file. */
export const saveClip = (sound: ThenNowSound, compared: Compared): string =>
  saved(new Blob([clipOf(sound)], { type: 'audio/wav' }), compared, 'clip.wav');

/** Saves one page with picture, words, figures and, where it is given, the sound. @returns the name of the file. */
export function savePage(compared: Compared, sound: ThenNowSound | null): string {
  const page = pageOf(compared, { picture: pictureOf(compared, 'wide'), clip: sound && clipOf(sound) });
  return saved(new Blob([page], { type: 'text/html' }), compared, 'page.html');
}

function saved(file: Blob, { blocks, nowDay }: Compared, ending: string): string {
  const name = `${fileName(blocks[1].body.exercise.sticking)}${playerPart()}-then-and-now-${nowDay}-${ending}`;
  saveFile(file, name);
  return name;
}

/** Draws an SVG of a fixed size. */
async function asPng(svg: string): Promise<Blob> {
  const url = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
  try {
    const image = new Image();
    image.src = url;
    await image.decode();
    const canvas = new OffscreenCanvas(image.naturalWidth, image.naturalHeight);
    canvas.getContext('2d')!.drawImage(image, 0, 0);
    return await canvas.convertToBlob({ type: 'image/png' });
  } finally {
    URL.revokeObjectURL(url);
  }
}
