/** Bytes that need not all be in memory: a file is read a stretch at a time. */

export interface SeekableBytes {
  readonly byteCount: number;
  /** The bytes from `from` up to `to`, whole numbers from 0; fewer where the file ends before. What it gives may be overwritten by the next call. */
  read(from: number, to: number): Uint8Array;
}

/** Bytes in memory. */
export const inMemory = (bytes: Uint8Array): SeekableBytes => ({
  byteCount: bytes.length,
  read: (from, to) => bytes.subarray(from, to),
});

/** All the bytes at once; only for what is known to be small. */
export const allBytes = (bytes: SeekableBytes): Uint8Array => bytes.read(0, bytes.byteCount);

/** A view for reading numbers. */
export const viewOf = (bytes: Uint8Array): DataView => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);

/** Letters of four bytes, as chunk ids are; fewer where the bytes end. */
export const tagAt = (bytes: Uint8Array, at: number): string => String.fromCharCode(...bytes.subarray(at, at + 4));
