/** Reading and writing files, with what can go wrong said in words. */
import { closeSync, fsyncSync, mkdirSync, openSync, readFileSync, renameSync, rmSync, statSync, writeFileSync, writeSync } from 'node:fs';
import { dirname } from 'node:path';
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
    return putInPlace(draft, file);
  } catch (error) {
    rmSync(draft, { force: true });
    return writingProblem(file, error);
  }
}

/** Some bytes of a file, and where they stand in it. */
export interface Piece {
  readonly at: number;
  readonly bytes: Uint8Array;
}

/** The same for a file that comes in pieces; what their maker throws comes through, and leaves nothing behind. */
export async function writePieces(file: string, pieces: AsyncIterable<Piece>): Promise<SaidProblem | null> {
  const draft = `${file}.${process.pid}.part`;
  let handle: number | null = null;
  try {
    handle = openSync(draft, 'w');
    for await (const piece of pieces) writePiece(handle, piece);
    fsyncSync(handle);
    closeSync(handle);
    handle = null;
    return putInPlace(draft, file);
  } catch (error) {
    if (handle !== null) closeSync(handle);
    rmSync(draft, { force: true });
    if (codeOf(error) === '') throw error;
    return writingProblem(file, error);
  }
}

/** The system may take fewer bytes at once than it is given. */
function writePiece(handle: number, { at, bytes }: Piece): void {
  for (let done = 0; done < bytes.length; ) done += writeSync(handle, bytes, done, bytes.length - done, at + done);
}

function putInPlace(draft: string, file: string): null {
  renameSync(draft, file);
  syncFolder(dirname(file));
  return null;
}

/**
 * Makes a folder and those it lies in, unless they are there. Throws what the disk throws; EEXIST where a file has its name.
 * Step by step, because Node's own recursion never ends in a file system that makes no folders, such as /proc.
 */
export function makeFolder(folder: string): void {
  if (dirname(folder) !== folder) makeFolder(dirname(folder));
  if (isFolder(folder)) return;
  try {
    mkdirSync(folder);
  } catch (error) {
    // Another program may have made it just now.
    if (!isFolder(folder)) throw error;
  }
}

const isFolder = (path: string): boolean => statSync(path, { throwIfNoEntry: false })?.isDirectory() ?? false;

/** Brings the names in a folder to the disk, where a system can do that: without it a power cut may undo a rename. */
export function syncFolder(folder: string): void {
  try {
    const handle = openSync(folder, 'r');
    fsyncSync(handle);
    closeSync(handle);
  } catch {
    // Windows opens no folders; its file system writes names through.
  }
}

const codeOf = (error: unknown): string => (error as NodeJS.ErrnoException).code ?? '';
const reasonOf = (error: unknown): string => codeOf(error) || (error as Error).message;

/** What kept a file from being read, in words. */
export function readingProblem(file: string, error: unknown): SaidProblem {
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
  if (code === 'EEXIST') return refuse('file-not-folder', { file: (error as NodeJS.ErrnoException).path ?? file });
  if (code === 'EACCES' || code === 'EPERM' || code === 'EROFS') return refuse('file-no-permission', { file });
  return refuse('file-not-written', { file, reason: reasonOf(error) });
}
