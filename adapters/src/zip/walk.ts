/** Walks through an archive that `write.ts` made, from entry to entry, and says where it stops being one. */
import { LENGTH, SIGNATURE } from './layout.ts';
import type { ByteSource } from './source.ts';

/** Where an entry's header and bytes lie, as its header says. */
export interface PlacedEntry {
  readonly name: string;
  readonly headerAt: number;
  readonly bytesAt: number;
  readonly endAt: number;
}

/** How far the walk came. */
export interface Walk {
  readonly entries: readonly PlacedEntry[];
  /** First byte behind the last whole entry. */
  readonly reachedAt: number;
  /** directory: it begins at `reachedAt`; cut: the source ends within or before the next entry; lost: what stands there is neither. */
  readonly stoppedAt: 'directory' | 'cut' | 'lost';
}

/** Longest name looked for. Names of a backup have less than fifty letters. */
const LONGEST_NAME = 200;

/** Reads the header of each entry and no entry. Never throws for what the bytes are. */
export async function walkZip(source: ByteSource): Promise<Walk> {
  const entries: PlacedEntry[] = [];
  let at = 0;
  for (;;) {
    const bytes = await source.read(at, Math.min(at + LENGTH.local + LONGEST_NAME, source.byteCount));
    const entry = placed(bytes, at);
    if (typeof entry === 'string') return { entries, reachedAt: at, stoppedAt: entry };
    if (entry.endAt > source.byteCount) return { entries, reachedAt: at, stoppedAt: 'cut' };
    entries.push(entry);
    at = entry.endAt;
  }
}

/** The entry whose header the bytes begin with, or why there is none. */
function placed(bytes: Uint8Array, headerAt: number): PlacedEntry | Walk['stoppedAt'] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 4) return 'cut';
  if (view.getUint32(0, true) === SIGNATURE.central) return 'directory';
  if (view.getUint32(0, true) !== SIGNATURE.local) return 'lost';
  if (bytes.length < LENGTH.local) return 'cut';
  const nameLength = view.getUint16(26, true);
  if (nameLength > LONGEST_NAME || view.getUint16(28, true) > 0) return 'lost';
  if (bytes.length < LENGTH.local + nameLength) return 'cut';
  const name = String.fromCharCode(...bytes.subarray(LENGTH.local, LENGTH.local + nameLength));
  const bytesAt = headerAt + LENGTH.local + nameLength;
  return { name, headerAt, bytesAt, endAt: bytesAt + view.getUint32(18, true) };
}
