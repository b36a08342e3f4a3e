/** Bytes that lie somewhere (memory, a file, a Blob) and are read a stretch at a time. */

export interface ByteSource {
  readonly byteCount: number;
  /** The bytes from `from` up to `to`, 0 ≤ from ≤ to ≤ byteCount; good until the next reading, for a source may use their memory again. */
  read(from: number, to: number): Promise<Uint8Array>;
}

/** Bytes in memory as a source. */
export const bytesSource = (bytes: Uint8Array): ByteSource => ({
  byteCount: bytes.length,
  read: async (from, to) => bytes.subarray(from, to),
});
