/** A backup is read only if it is, byte for byte, the one that its contents make. */
import {
  BACKUP_FORMAT,
  type BackupManifest,
  type BackupProblem,
  type DiaryRecord,
  isNewerFormat,
  MANIFEST_ENTRY,
  manifestText,
  RECORDS_ENTRY,
  readLines,
  readManifest,
  refuseBackup,
  takeEntry,
  takeIdOf,
  writeLines,
} from '@evenhand/core/diary';
import { EvenhandError } from '@evenhand/core/errors';
import type { Reading } from '@evenhand/core/problem';
import { textOf, utf8Of } from '../utf8.ts';
import { addEntry, type ByteSource, EMPTY_ZIP, endsWhole, endZip, fitsZip, type PlacedEntry, type Walk, walkZip } from '../zip/index.ts';
import { formatIn, startsLikeBackup } from './format.ts';
import { entryOf } from './write.ts';

/** A backup that was checked to the last bit. */
export interface Backup {
  readonly byteCount: number;
  /** In order of making; unknown kinds and versions as they came. */
  readonly records: readonly DiaryRecord[];
  /** Takes whose sound is in it, by rising id. */
  readonly takeIds: readonly string[];
  /** The FLAC file of one of `takeIds`. Throws EvenhandError when the file was changed since it was checked. */
  readTake(takeId: string): Promise<Uint8Array>;
}

/**
 * Reads and checks a backup: builds the archive anew from its contents and compares every byte. Never throws, whatever the bytes.
 * No more than the records and one take are in memory.
 * @returns the backup, or one refused problem: the first that was found.
 */
export async function readBackup(source: ByteSource): Promise<Reading<Backup, BackupProblem>> {
  const format = await formatIn(source);
  if (format !== null && isNewerFormat(format)) return refused(refuseBackup('backup-newer', { format }));
  const walk = await walkZip(source);
  if (format !== BACKUP_FORMAT && !(await startsLikeBackup(source))) return refused(refuseBackup('backup-not-one', {}));
  if (walk.stoppedAt === 'cut' && !(await endsWhole(source))) return refused(cut(source));
  if (walk.stoppedAt !== 'directory' || !fitsZip(source.byteCount, walk.entries.length)) return refused(changed('wrapping'));
  const manifest = await manifestOf(source, walk);
  return manifest ? compare(source, walk, manifest) : refused(changed('manifest'));
}

const refused = (problem: BackupProblem): Reading<Backup, BackupProblem> => ({ value: null, problems: [problem] });
const changed = (part: Extract<BackupProblem, { code: 'backup-changed' }>['params']['part']) => refuseBackup('backup-changed', { part });
const cut = ({ byteCount }: ByteSource) => refuseBackup('backup-cut', { byteCount });

/** The manifest, the last entry; null when it is not there or not as it was written. */
async function manifestOf(source: ByteSource, { entries }: Walk): Promise<BackupManifest | null> {
  const last = entries.at(-1);
  if (last?.name !== MANIFEST_ENTRY) return null;
  const bytes = await source.read(last.bytesAt, last.endAt);
  // The header holds the entry's CRC: a manifest that does not match it must not accuse the entries.
  if (!same(addEntry(EMPTY_ZIP, last.name, bytes).header, await source.read(last.headerAt, last.bytesAt))) return null;
  return readManifest(textOf(bytes) ?? '');
}

/** Builds the archive anew, entry by entry, and stops at the first byte that differs. */
async function compare(source: ByteSource, walk: Walk, manifest: BackupManifest): Promise<Reading<Backup, BackupProblem>> {
  const missing = missingTake(walk, manifest);
  if (missing !== null) return refused(refuseBackup('backup-take-missing', { takeId: missing }));
  if (!inOrder(walk.entries, manifest)) return refused(changed('wrapping'));
  let zip = EMPTY_ZIP;
  for (const [i, entry] of walk.entries.entries()) {
    const bytes = await source.read(entry.bytesAt, entry.endAt);
    const listed = manifest.entries[i];
    if (listed && !sameEntry(listed, await entryOf(entry.name, bytes))) return refused(refuseBackup('backup-checksum', { name: entry.name }));
    const added = addEntry(zip, entry.name, bytes);
    zip = added.zip;
    if (!same(added.header, await source.read(entry.headerAt, entry.bytesAt))) return refused(changed('wrapping'));
  }
  const problem = await differingEnd(source, walk, endZip(zip));
  return problem ? refused(problem) : opened(source, walk, manifest);
}

/** A take that the manifest lists and the archive lacks; null too when it may be there by a damaged name. */
function missingTake({ entries }: Walk, manifest: BackupManifest): string | null {
  if (entries.length > manifest.entries.length) return null;
  const there = new Set(entries.map(({ name }) => name));
  const lacking = manifest.entries.find(({ name }) => takeIdOf(name) !== null && !there.has(name));
  return lacking ? takeIdOf(lacking.name) : null;
}

/** Whether the archive holds the records, the takes by rising id and the manifest, all of them listed and nothing else. */
function inOrder(entries: readonly PlacedEntry[], manifest: BackupManifest): boolean {
  const names = entries.map(({ name }) => name);
  const takes = names.slice(1, -1);
  return (
    names.length === manifest.entries.length + 1 &&
    names[0] === RECORDS_ENTRY &&
    names.at(-1) === MANIFEST_ENTRY &&
    takes.every((name, i) => takeIdOf(name) !== null && (i === 0 || name > takes[i - 1]!)) &&
    manifest.entries.every(({ name }, i) => name === names[i])
  );
}

const sameEntry = (a: BackupManifest['entries'][number], b: BackupManifest['entries'][number]) =>
  a.name === b.name && a.byteCount === b.byteCount && a.sha256 === b.sha256;

function same(a: Uint8Array, b: Uint8Array): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}

/** What is wrong with everything behind the last entry, or null. */
async function differingEnd(source: ByteSource, { reachedAt }: Walk, pieces: readonly Uint8Array[]): Promise<BackupProblem | null> {
  let at = reachedAt;
  for (const piece of pieces) {
    const found = await source.read(Math.min(at, source.byteCount), Math.min(at + piece.length, source.byteCount));
    if (!same(found, piece.subarray(0, found.length))) return changed('wrapping');
    if (found.length < piece.length) return cut(source);
    at += piece.length;
  }
  return at === source.byteCount ? null : changed('wrapping');
}

/** The records of canonical lines; null when this program would write them otherwise, or cannot. */
function canonicalRecords(bytes: Uint8Array): readonly DiaryRecord[] | null {
  try {
    const records = readLines(textOf(bytes) ?? '').value ?? [];
    return same(utf8Of(writeLines(records)), bytes) ? records : null;
  } catch (error) {
    // Lists within lists, deeper than the stack.
    if (error instanceof RangeError) return null;
    throw error;
  }
}

/** The last comparison: records and manifest are written as this program writes them. */
async function opened(source: ByteSource, walk: Walk, manifest: BackupManifest): Promise<Reading<Backup, BackupProblem>> {
  const [first, last] = [walk.entries[0]!, walk.entries.at(-1)!];
  const bytes = await source.read(first.bytesAt, first.endAt);
  const records = canonicalRecords(bytes);
  if (records === null) return refused(changed('records'));
  if (!same(utf8Of(manifestText(manifest.entries, records.length)), await source.read(last.bytesAt, last.endAt))) return refused(changed('manifest'));
  const placed = new Map(walk.entries.map((entry, i) => [entry.name, { ...entry, sha256: manifest.entries[i]?.sha256 }]));
  const takeIds = walk.entries.flatMap(({ name }) => takeIdOf(name) ?? []);
  const ids = new Set(records.map(({ id }) => id));
  if (!takeIds.every((takeId) => ids.has(takeId))) return refused(changed('take'));
  const readTake = async (takeId: string) => {
    const entry = placed.get(takeEntry(takeId));
    if (!entry) throw new EvenhandError(`the backup does not hold take ${takeId}`);
    const flac = await source.read(entry.bytesAt, entry.endAt);
    if ((await entryOf(entry.name, flac)).sha256 !== entry.sha256) throw new EvenhandError(`${entry.name} was changed while the backup was read`);
    return flac;
  };
  return { value: { byteCount: source.byteCount, records, takeIds, readTake }, problems: [] };
}
