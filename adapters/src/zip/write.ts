/** Writes a ZIP archive entry by entry, so that no more than one entry need be in memory; the same entries give the same bytes, always. */
import { EvenhandError, ParameterError } from '@evenhand/core/errors';
import { crc32 } from './crc.ts';
import { centralHeader, type EntryFacts, endRecord, LENGTH, localHeader } from './layout.ts';

/** An archive as far as it is written. */
export interface ZipSoFar {
  readonly byteCount: number;
  /** Its lines of the directory at the end. */
  readonly directory: readonly Uint8Array<ArrayBuffer>[];
}

/** An archive with nothing in it. */
export const EMPTY_ZIP: ZipSoFar = { byteCount: 0, directory: [] };

/** What ZIP can count without its 64-bit extension. @source [APPNOTE] 4.4.1.4 */
const MOST_BYTES = 0xffffffff;
const MOST_ENTRIES = 0xffff;

/** Whether ZIP can count so many bytes and entries. */
export const fitsZip = (byteCount: number, entryCount: number): boolean => byteCount <= MOST_BYTES && entryCount <= MOST_ENTRIES;

/** More than ZIP can count. A backup would need ten times the ten years of the bench for it. */
export class ZipFullError extends EvenhandError {
  override name = 'ZipFullError';
}

/**
 * Adds an entry.
 * @param name printable ASCII, folders parted by `/`; throws ParameterError otherwise.
 * @param bytes of the entry, stored as they are.
 * @returns the archive with it, and the header to write before `bytes`. Throws ZipFullError beyond 4 GB or 65,535 entries.
 */
export const addEntry = (zip: ZipSoFar, name: string, bytes: Uint8Array): WithEntry =>
  addEntryOf(zip, { name, byteCount: bytes.length, crc: crc32(bytes) });

/** An archive with one entry more, and the header to write before its bytes. */
export interface WithEntry {
  readonly zip: ZipSoFar;
  readonly header: Uint8Array<ArrayBuffer>;
}

/** The same for an entry whose bytes are elsewhere: its length and checksum are enough. */
export function addEntryOf(zip: ZipSoFar, facts: EntryFacts): WithEntry {
  const { name } = facts;
  if (!/^[!-~]+$/.test(name)) throw new ParameterError('name', name, 'printable ASCII without blanks');
  const header = localHeader(facts);
  const byteCount = zip.byteCount + header.length + facts.byteCount;
  if (!fitsZip(byteCount, zip.directory.length + 1)) throw new ZipFullError(`${name} does not fit into one ZIP archive`);
  return { zip: { byteCount, directory: [...zip.directory, centralHeader(facts, zip.byteCount)] }, header };
}

/** Bytes of the header before an entry of that name. */
export const headerLength = (name: string): number => LENGTH.local + name.length;

/** What to write after the last entry: the directory and the end. */
export function endZip({ byteCount, directory }: ZipSoFar): readonly Uint8Array<ArrayBuffer>[] {
  const directoryBytes = directory.reduce((sum, { length }) => sum + length, 0);
  if (!fitsZip(byteCount + directoryBytes, directory.length)) throw new ZipFullError('the directory does not fit into one ZIP archive');
  return [...directory, endRecord(directory.length, byteCount, directoryBytes)];
}
