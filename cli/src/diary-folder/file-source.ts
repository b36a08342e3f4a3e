/** A file as a source of bytes, read a stretch at a time. */
import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import type { ByteSource } from '@evenhand/adapters/backup';
import { readingProblem, type Tried } from '../files.ts';

/** The source and the way to let go of the file. */
export interface FileSource extends ByteSource {
  close(): void;
}

/** Opens a file. A folder, or a file that may not be read, is a problem. */
export function openSource(file: string): Tried<FileSource> {
  let handle: number | null = null;
  try {
    handle = openSync(file, 'r');
    const stat = fstatSync(handle);
    if (stat.isDirectory()) throw Object.assign(new Error('a folder'), { code: 'EISDIR' });
    return { value: sourceOf(handle, stat.size) };
  } catch (error) {
    if (handle !== null) closeSync(handle);
    return { problem: readingProblem(file, error) };
  }
}

const sourceOf = (handle: number, byteCount: number): FileSource => ({
  byteCount,
  read: async (from, to) => {
    const bytes = new Uint8Array(to - from);
    for (let at = 0; at < bytes.length; ) {
      const count = readSync(handle, bytes, at, bytes.length - at, from + at);
      if (count === 0) return bytes.subarray(0, at);
      at += count;
    }
    return bytes;
  },
  close: () => closeSync(handle),
});
