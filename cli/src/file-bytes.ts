/** A file read a stretch at a time, so that an hour of sound need not fit into memory. */
import { closeSync, fstatSync, openSync, readFileSync, readSync } from 'node:fs';
import { inMemory, type SeekableBytes } from '@evenhand/core/take';
import { readingProblem, type Tried } from './files.ts';

/** Bytes read at once beyond what is asked for; decoders ask for little at a time. */
const AHEAD_BYTES = 262_144;

export interface FileBytes extends SeekableBytes {
  close(): void;
}

/** Opens a file; close it when done. A pipe or device, which can only be read from its beginning, is read at once. */
export function openBytes(file: string): Tried<FileBytes> {
  try {
    const handle = openSync(file, 'r');
    const stats = fstatSync(handle);
    if (stats.isFile()) return { value: bytesOf(handle, stats.size) };
    closeSync(handle);
    return { value: { ...inMemory(readFileSync(file)), close: () => {} } };
  } catch (error) {
    return { problem: readingProblem(file, error) };
  }
}

function bytesOf(handle: number, byteCount: number): FileBytes {
  let kept = new Uint8Array(0);
  let keptFrom = 0;
  return {
    byteCount,
    read(from, to) {
      const until = Math.min(to, byteCount);
      if (from < keptFrom || until > keptFrom + kept.length) {
        kept = readAt(handle, from, Math.max(until - from, Math.min(AHEAD_BYTES, byteCount - from)));
        keptFrom = from;
      }
      return kept.subarray(from - keptFrom, Math.max(from, until) - keptFrom);
    },
    close: () => closeSync(handle),
  };
}

/** So many bytes, fewer where the file ends or a disk fails. */
function readAt(handle: number, from: number, count: number): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(Math.max(0, count));
  let filled = 0;
  while (filled < bytes.length) {
    const got = tryRead(handle, bytes, { filled, position: from + filled });
    if (got === 0) break;
    filled += got;
  }
  return bytes.subarray(0, filled);
}

function tryRead(handle: number, bytes: Uint8Array, { filled, position }: { filled: number; position: number }): number {
  try {
    return readSync(handle, bytes, filled, bytes.length - filled, position);
  } catch {
    return 0;
  }
}
