/** A diary and its takes become one file, a piece at a time. */
import {
  type BackupEntry,
  type DiaryRecord,
  isTakeId,
  MANIFEST_ENTRY,
  manifestText,
  RECORDS_ENTRY,
  takeEntry,
  writeLine,
} from '@evenhand/core/diary';
import { ParameterError } from '@evenhand/core/errors';
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import { utf8Of } from '../utf8.ts';
import { addEntryOf, crc32, EMPTY_ZIP, endZip, headerLength } from '../zip/index.ts';
import { orderKept, partsOf, type RecordParts, type SummedEntry, summing } from './lines.ts';

/** The sound of one take. */
export interface BackupTake {
  /** Id of its record, 32 hexadecimal digits. */
  readonly takeId: string;
  /** A FLAC file; `encodeFlac` makes it. A take that came out of a backup goes into the next as it came. */
  readonly flac: Uint8Array;
}

/** Some bytes of a backup. */
export interface BackupPiece {
  /** Where they stand in the file. */
  readonly at: number;
  readonly bytes: Uint8Array;
}

/**
 * The pieces of a backup: together they are every byte of it once. They come in the order of the file, but for its first bytes, which come after the
 * records: they hold what is known only then. The same records and takes give the same bytes. No more than some records or one take are in memory.
 * @param records all of a diary, unknown kinds included, in order of making and each once. Throws ParameterError otherwise.
 * @param takes each once, by rising id, each with its record among `records`; they may be read while this is written. Throws ParameterError otherwise.
 * @throws ZipFullError beyond 4 GB or 65,533 takes.
 */
export async function* writeBackup(records: RecordParts, takes: Iterable<BackupTake> | AsyncIterable<BackupTake>): AsyncGenerator<BackupPiece, void> {
  const order = orderKept();
  const lines = summing();
  let at = headerLength(RECORDS_ENTRY);
  for await (const some of records) {
    if (!order.follow(some)) throw new ParameterError('records', some.length, 'records in order of making, each once');
    const bytes = utf8Of(some.map(writeLine).join(''));
    lines.add(bytes);
    yield { at, bytes };
    at += bytes.length;
  }
  const first = lines.sum(RECORDS_ENTRY);
  let { zip, header } = addEntryOf(EMPTY_ZIP, first);
  yield { at: 0, bytes: header };
  const entries: BackupEntry[] = [listed(first)];
  const add = async (name: string, bytes: Uint8Array): Promise<readonly BackupPiece[]> => {
    const summed = await entryOf(name, bytes);
    const from = zip.byteCount;
    ({ zip, header } = addEntryOf(zip, summed));
    entries.push(listed(summed));
    return [
      { at: from, bytes: header },
      { at: from + header.length, bytes },
    ];
  };
  let before = '';
  for await (const { takeId, flac } of takes) {
    if (!isTakeId(takeId) || !order.ids.has(takeId) || takeId <= before)
      throw new ParameterError('takeId', takeId, `32 hexadecimal digits of a record, after ${before || 'nothing'}`);
    yield* await add(takeEntry(takeId), flac);
    before = takeId;
  }
  yield* await add(MANIFEST_ENTRY, utf8Of(manifestText([...entries], order.ids.size)));
  at = zip.byteCount;
  for (const bytes of endZip(zip)) {
    yield { at, bytes };
    at += bytes.length;
  }
}

const listed = ({ name, byteCount, sha256: digest }: SummedEntry): BackupEntry => ({ name, byteCount, sha256: digest });

/** An entry as archive and manifest list it. */
export const entryOf = async (name: string, bytes: Uint8Array): Promise<SummedEntry> => ({
  name,
  byteCount: bytes.length,
  crc: crc32(bytes),
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

/** A backup in one piece, for small ones. @param records in whatever order. */
export async function backupBytes(
  records: readonly DiaryRecord[],
  takes: Iterable<BackupTake> | AsyncIterable<BackupTake>,
): Promise<Uint8Array<ArrayBuffer>> {
  const pieces: BackupPiece[] = [];
  for await (const piece of writeBackup(partsOf(records), takes)) pieces.push(piece);
  const whole = new Uint8Array(pieces.reduce((sum, { bytes }) => sum + bytes.length, 0));
  for (const { at, bytes } of pieces) whole.set(bytes, at);
  return whole;
}
