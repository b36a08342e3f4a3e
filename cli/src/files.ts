/** Reading and writing files, with what can go wrong said in words. */
import { closeSync, fsyncSync, openSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import type { SaidProblem } from '@evenhand/core/words';
import { refuse } from './problems.ts';

/** A value, or the problem that kept it away. */
export type Tried<Value> = { readonly value: Value; readonly problem?: never } | { readonly value?: never; readonly problem: SaidProblem };

/** The bytes of a file. */
export function readBytes(file: string): Tried<Uint8Array> {
  try {
    return { value: readFileSync(file) };
  } catch (error) {
    return { problem: readingProblem(file, error) };
  }
}

/** The text of a file (UTF-8). */
export function readText(file: string): Tried<string> {
  const bytes = readBytes(file);
  return bytes.problem ? bytes : { value: new TextDecoder().decode(bytes.value) };
}

/** Writes a file so that it is whole or not there: to a name beside it first, then renamed. What is no plain file (a device, a pipe) is written into. */
export function writeWhole(file: string, content: string | Uint8Array): SaidProblem | null {
  const draft = `${file}.${process.pid}.part`;
  try {
    const there = statSync(file, { throwIfNoEntry: false });
    if (there && !there.isFile()) {
      writeFileSync(file, content);
      return null;
    }
    const handle = openSync(draft, 'w');
    try {
      writeFileSync(handle, content);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    renameSync(draft, file);
    return null;
  } catch (error) {
    rmSync(draft, { force: true });
    return writingProblem(file, error);
  }
}

const codeOf = (error: unknown): string => (error as NodeJS.ErrnoException).code ?? '';
const reasonOf = (error: unknown): string => codeOf(error) || (error as Error).message;

function readingProblem(file: string, error: unknown): SaidProblem {
  const code = codeOf(error);
  if (code === 'ENOENT' || code === 'ENOTDIR') return refuse('file-not-found', { file });
  if (code === 'EISDIR') return refuse('file-is-folder', { file });
  if (code === 'EACCES' || code === 'EPERM') return refuse('file-no-permission', { file });
  return refuse('file-unreadable', { file, reason: reasonOf(error) });
}

/** What kept a file from being written, in words. */
export function writingProblem(file: string, error: unknown): SaidProblem {
  const code = codeOf(error);
  if (code === 'ENOSPC' || code === 'EDQUOT') return refuse('disk-full', { file });
  if (code === 'ENOENT' || code === 'ENOTDIR') return refuse('file-folder-missing', { file });
  if (code === 'EISDIR') return refuse('file-is-folder', { file });
  if (code === 'EACCES' || code === 'EPERM' || code === 'EROFS') return refuse('file-no-permission', { file });
  return refuse('file-not-written', { file, reason: reasonOf(error) });
}
