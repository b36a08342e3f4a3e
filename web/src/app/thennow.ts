/** Then and now leave the app: as sound, as a picture, as one page. */
import { setupDiffers, thenNowHtml, thenNowPdf, thenNowSvg, thenNowWav } from '@evenhand/adapters/report';
import type { ShownShape } from '@evenhand/core/picture';
import type { TakesCompared, ThenNowSound } from '@evenhand/core/progress';
import { saveFile } from '../backup/download.ts';
import { playerPart } from './ownfiles.ts';
import { paperSize } from './paper.ts';
import { spoken } from './said.ts';
import { asPng } from './svgpng.ts';
import { fileName } from './takealong.ts';

/** Both takes as one sound. */
export { thenNowSound } from '@evenhand/core/progress';

/** The sound as a file. */
export const clipOf = (sound: ThenNowSound, compared: TakesCompared): Blob => fileOf(thenNowWav(sound, compared, spoken()), 'audio/wav');

/** Saves a picture. @returns the name of the file. */
export async function savePicture(compared: TakesCompared, shape: ShownShape, kind: 'png' | 'svg'): Promise<string> {
  const svg = thenNowSvg(compared, shape, spoken());
  const file = kind === 'svg' ? new Blob([svg], { type: 'image/svg+xml' }) : await asPng(svg);
  return saved(file, compared, `${shape}.${kind}`);
}

/** Saves the sound. @returns the name of the file. */
export const saveClip = (sound: ThenNowSound, compared: TakesCompared): string =>
  saved(clipOf(sound, compared), compared, sound.speed === 1 ? 'clip.wav' : `clip-at-${Math.round(100 * sound.speed)}-percent.wav`);

/** Saves one page with rings, words, figures and, where it is given, the sound. @returns the name of the file. */
export const savePage = (compared: TakesCompared, sound: ThenNowSound | null): string =>
  saved(new Blob([thenNowHtml(compared, { sound, language: spoken() })], { type: 'text/html' }), compared, 'page.html');

/** Saves the same page to print, without sound. @returns the name of the file. */
export async function savePaper(compared: TakesCompared): Promise<string> {
  const bytes = await thenNowPdf(compared, { madeMs: Date.now(), language: spoken(), size: paperSize() });
  return saved(fileOf(bytes, 'application/pdf'), compared, 'page.pdf');
}

const fileOf = (bytes: Uint8Array, type: string): Blob => new Blob([new Uint8Array(bytes)], { type });

/** Another set-up stands in the name: it is all that is seen of a sound. */
function saved(file: Blob, compared: TakesCompared, ending: string): string {
  const { of, blocks, nowDay } = compared;
  const what = of === 'drums' ? 'pad-and-kit' : `then-and-now${setupDiffers(compared) ? '-other-set-up' : ''}`;
  const name = `${fileName(blocks[1].body.exercise.sticking)}${playerPart()}-${what}-${nowDay}-${ending}`;
  saveFile(file, name);
  return name;
}
