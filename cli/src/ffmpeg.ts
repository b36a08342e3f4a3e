/** What no reader of ours knows (M4A, WMA, CAF …) is turned into WAV by ffmpeg, where that is installed. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** A file that holds the same sound as WAV; remove it when done. */
export interface Converted {
  readonly wav: string;
  remove(): void;
}

/** `none` when ffmpeg is not installed or can make nothing of the file. */
export function convertedByFfmpeg(file: string): Converted | 'none' {
  const folder = mkdtempSync(join(tmpdir(), 'evenhand-'));
  const wav = join(folder, 'sound.wav');
  const remove = (): void => rmSync(folder, { recursive: true, force: true });
  const given = ['-v', 'error', '-nostdin', '-i', `file:${file}`, '-map', '0:a:0', '-c:a', 'pcm_s24le', '-rf64', 'auto', '-f', 'wav', wav];
  const { status } = spawnSync('ffmpeg', given, { stdio: 'ignore' });
  // A damaged file fails in the end; what was read before counts.
  const size = status === null ? 0 : (statSync(wav, { throwIfNoEntry: false })?.size ?? 0);
  if (size > 0) return { wav, remove };
  remove();
  return 'none';
}

/** Whether ffmpeg can be called. */
export const hasFfmpeg = (): boolean => spawnSync('ffmpeg', ['-version'], { stdio: 'ignore' }).status === 0;
