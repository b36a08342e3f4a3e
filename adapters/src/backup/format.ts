/** Tells which version a file is of, before anything else of it is trusted. */
import { formatOf, MANIFEST_ENTRY, RECORDS_ENTRY } from '@evenhand/core/diary';
import { textOf, utf8Of } from '../utf8.ts';
import { addEntry, type ByteSource, EMPTY_ZIP, lastEntry } from '../zip/index.ts';

/**
 * The format that the manifest of an archive names, whatever the version: in each, `manifest.json` is the last entry and stored as it is.
 * @returns null when there is none, or it does not match its checksum in the archive.
 */
export async function formatIn(source: ByteSource): Promise<string | null> {
  const manifest = await lastEntry(source, MANIFEST_ENTRY);
  return manifest ? formatOf(textOf(manifest) ?? '') : null;
}

/** Where a header holds what depends on its entry: checksum and sizes. @source [APPNOTE] 4.3.7 */
const DEPENDS = { from: 14, to: 26 };

/** Whether a file begins as every backup of version 1 does, as far as it goes; no bytes at all do. */
export async function startsLikeBackup(source: ByteSource): Promise<boolean> {
  const { header } = addEntry(EMPTY_ZIP, RECORDS_ENTRY, utf8Of(''));
  const start = await source.read(0, Math.min(header.length, source.byteCount));
  return start.every((byte, i) => byte === header[i] || (i >= DEPENDS.from && i < DEPENDS.to));
}
