/** Reads annotated takes (FLAC and truth) from a folder for the benches. */
import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileClock, type Take } from '../../core/src/take/index.ts';
import type { Truth } from './scorer.ts';

/** The development takes, beside the repository. */
export const referenceTakes = join(process.cwd(), '..', 'shared', 'reference', 'takes');

/** A take with its truth and where its FLAC file lies. */
export interface AnnotatedTake {
  readonly id: string;
  readonly file: string;
  readonly truth: Truth;
  readonly take: Take;
}

/** The takes of `folder` in order of name, or null when the folder is absent. Needs the program `flac`. */
export const readAnnotatedTakes = (folder: string): AnnotatedTake[] | null => {
  if (!existsSync(folder)) return null;
  const names = readdirSync(folder)
    .filter((name) => name.endsWith('.json'))
    .sort();
  return names.map((name) => {
    const truth = JSON.parse(readFileSync(join(folder, name), 'utf8')) as Truth & { sampleRate: number; file: string };
    const file = join(folder, truth.file);
    return { id: truth.id, file, truth, take: { samples: decodeFlac16(file), clock: fileClock(truth.sampleRate) } };
  });
};

/** Samples of a mono 16-bit FLAC file, full scale ±1. */
const decodeFlac16 = (file: string): Float32Array => {
  const bytes = execFileSync('flac', ['-d', '-c', '-s', '--force-raw-format', '--endian=little', '--sign=signed', file], { maxBuffer: 1 << 30 });
  const whole = new Int16Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength));
  return Float32Array.from(whole, (v) => v / 32768);
};
