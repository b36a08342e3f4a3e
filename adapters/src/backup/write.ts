/** A diary and its takes become one file, a piece at a time. */
import {
  type BackupEntry,
  type DiaryRecord,
  isTakeId,
  MANIFEST_ENTRY,
  manifestText,
  mergeRecords,
  RECORDS_ENTRY,
  takeEntry,
  writeLines,
} from '@evenhand/core/diary';
import { ParameterError } from '@evenhand/core/errors';
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import { utf8Of } from '../utf8.ts';
import { addEntry, EMPTY_ZIP, endZip } from '../zip/index.ts';

/** The sound of one take. */
export interface BackupTake {
  /** Id of its record, 32 hexadecimal digits. */
  readonly takeId: string;
  /** A FLAC file; `encodeFlac` makes it. A take that came out of a backup goes into the next as it came. */
  readonly flac: Uint8Array;
}

/**
 * The pieces of a backup, to be written one after another. The same records and takes give the same bytes, whatever order the records come in.
 * No more than the records and one take are in memory.
 * @param records all of a diary, unknown kinds included.
 * @param takes each once, by rising id, each with its record among `records`; they may be read while this is written. Throws ParameterError otherwise.
 * @throws ZipFullError beyond 4 GB or 65,533 takes.
 */
export async function* writeBackup(
  records: readonly DiaryRecord[],
  takes: Iterable<BackupTake> | AsyncIterable<BackupTake>,
): AsyncGenerator<Uint8Array, void> {
  let zip = EMPTY_ZIP;
  const entries: BackupEntry[] = [];
  const add = async (name: string, bytes: Uint8Array): Promise<Uint8Array[]> => {
    const added = addEntry(zip, name, bytes);
    zip = added.zip;
    entries.push(await entryOf(name, bytes));
    return [added.header, bytes];
  };
  yield* await add(RECORDS_ENTRY, utf8Of(writeLines(records)));
  const ids = new Set(records.map(({ id }) => id));
  let before = '';
  for await (const { takeId, flac } of takes) {
    if (!isTakeId(takeId) || !ids.has(takeId) || takeId <= before)
      throw new ParameterError('takeId', takeId, `32 hexadecimal digits of a record, after ${before || 'nothing'}`);
    yield* await add(takeEntry(takeId), flac);
    before = takeId;
  }
  yield* await add(MANIFEST_ENTRY, utf8Of(manifestText([...entries], mergeRecords(records, []).length)));
  yield* endZip(zip);
}

/** An entry as the manifest lists it. */
export const entryOf = async (name: string, bytes: Uint8Array): Promise<BackupEntry> => ({
  name,
  byteCount: bytes.length,
  sha256: bytesToHex(await sha256Of(bytes)),
});

/** What the platform has for it, in Node and on secure pages, is many times as fast. */
const sha256Of = async (bytes: Uint8Array): Promise<Uint8Array> => {
  const native = (globalThis as { readonly crypto?: { readonly subtle?: Subtle } }).crypto?.subtle;
  return native ? new Uint8Array(await native.digest('SHA-256', bytes)) : sha256(bytes);
};

interface Subtle {
  digest(name: 'SHA-256', bytes: Uint8Array): Promise<ArrayBuffer>;
}

/** A backup in one piece, for small ones. */
export async function backupBytes(
  records: readonly DiaryRecord[],
  takes: Iterable<BackupTake> | AsyncIterable<BackupTake>,
): Promise<Uint8Array<ArrayBuffer>> {
  const pieces: Uint8Array[] = [];
  for await (const piece of writeBackup(records, takes)) pieces.push(piece);
  const bytes = new Uint8Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    bytes.set(piece, at);
    at += piece.length;
  }
  return bytes;
}
