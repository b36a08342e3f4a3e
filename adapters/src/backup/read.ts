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
} from '@evenhand/core/diary';
import { EvenhandError } from '@evenhand/core/errors';
import type { Reading } from '@evenhand/core/problem';
import { textOf, utf8Of } from '../utf8.ts';
import {
  addEntry,
  addEntryOf,
  type ByteSource,
  crc32,
  EMPTY_ZIP,
  endsWhole,
  endZip,
  fitsZip,
  type PlacedEntry,
  type Walk,
  walkZip,
} from '../zip/index.ts';
import { formatIn, startsLikeBackup } from './format.ts';
import { linesIn, type ReadRecords, readRecords } from './lines.ts';
import { entryOf } from './write.ts';

/** A backup that was checked to the last bit. */
export interface Backup {
  readonly byteCount: number;
  readonly recordCount: number;
  /**
   * The records in order of making, some at a time; unknown kinds and versions as they came. Throws EvenhandError at the end when the file was changed
   * since it was checked: what came until then is to be thrown away.
   */
  records(): AsyncGenerator<readonly DiaryRecord[], void>;
  /** Takes whose sound is in it, by rising id. */
  readonly takeIds: readonly string[];
  /** The FLAC file of one of `takeIds`, good until the next is read. Throws EvenhandError when the file was changed since it was checked. */
  readTake(takeId: string): Promise<Uint8Array>;
}

/**
 * Reads and checks a backup: builds the archive anew from its contents and compares every byte. Never throws, whatever the bytes.
 * No more than some records or one take are in memory.
 * @param look is shown the records as they are checked, some at a time, in order of making: before it is known that the backup is good.
 * @returns the backup, or one refused problem: the first that was found.
 */
export async function readBackup(
  source: ByteSource,
  look: (some: readonly DiaryRecord[]) => Promise<void> = async () => {},
): Promise<Reading<Backup, BackupProblem>> {
  const format = await formatIn(source);
  if (format !== null && isNewerFormat(format)) return refused(refuseBackup('backup-newer', { format }));
  const walk = await walkZip(source);
  if (format !== BACKUP_FORMAT && !(await startsLikeBackup(source))) return refused(refuseBackup('backup-not-one', {}));
  if (walk.stoppedAt === 'cut' && !(await endsWhole(source))) return refused(cut(source));
  if (walk.stoppedAt !== 'directory' || !fitsZip(source.byteCount, walk.entries.length)) return refused(changed('wrapping'));
  const manifest = await manifestOf(source, walk);
  return manifest ? compare(source, { walk, manifest, look }) : refused(changed('manifest'));
}

/** A backup with its records in memory. */
export interface BackupAtOnce extends Omit<Backup, 'records'> {
  readonly records: readonly DiaryRecord[];
}

/** The same with the records in one piece, for small ones and for programs that have the diary in memory anyway. */
export async function readBackupAtOnce(source: ByteSource): Promise<Reading<BackupAtOnce, BackupProblem>> {
  const records: DiaryRecord[] = [];
  const { value, problems } = await readBackup(source, async (some) => void records.push(...some));
  return { value: value && { ...value, records }, problems };
}

interface Compared {
  readonly walk: Walk;
  readonly manifest: BackupManifest;
  readonly look: (some: readonly DiaryRecord[]) => Promise<void>;
}

const refused = (problem: BackupProblem): Reading<never, BackupProblem> => ({ value: null, problems: [problem] });
const changed = (part: Extract<BackupProblem, { code: 'backup-changed' }>['params']['part']) => refuseBackup('backup-changed', { part });
const cut = ({ byteCount }: ByteSource) => refuseBackup('backup-cut', { byteCount });

/** The manifest, the last entry; null when it is not there or not as it was written. */
async function manifestOf(source: ByteSource, { entries }: Walk): Promise<BackupManifest | null> {
  const last = entries.at(-1);
  if (last?.name !== MANIFEST_ENTRY) return null;
  const bytes = await source.read(last.bytesAt, last.endAt);
  const text = textOf(bytes) ?? '';
  // The header holds the entry's CRC: a manifest that does not match it must not accuse the entries.
  const { header } = addEntry(EMPTY_ZIP, last.name, bytes);
  return same(header, await source.read(last.headerAt, last.bytesAt)) ? readManifest(text) : null;
}

/** Builds the archive anew, entry by entry, and stops at the first byte that differs. */
async function compare(source: ByteSource, { walk, manifest, look }: Compared): Promise<Reading<Backup, BackupProblem>> {
  const missing = missingTake(walk, manifest);
  if (missing !== null) return refused(refuseBackup('backup-take-missing', { takeId: missing }));
  if (!inOrder(walk.entries, manifest)) return refused(changed('wrapping'));
  const records = await readRecords(source, walk.entries[0]!, look);
  let zip = EMPTY_ZIP;
  for (const [i, entry] of walk.entries.entries()) {
    // Header and bytes at once: a file is read forwards.
    const found = await source.read(entry.headerAt, i === 0 ? entry.bytesAt : entry.endAt);
    const header = found.slice(0, entry.bytesAt - entry.headerAt);
    const summed = i === 0 ? records.summed : await entryOf(entry.name, found.subarray(header.length));
    const listed = manifest.entries[i];
    if (listed && !sameEntry(listed, summed)) return refused(refuseBackup('backup-checksum', { name: entry.name }));
    const added = addEntryOf(zip, summed);
    zip = added.zip;
    if (!same(added.header, header)) return refused(changed('wrapping'));
  }
  const problem = await differingEnd(source, walk, endZip(zip));
  return problem ? refused(problem) : opened(source, { walk, manifest }, records);
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

/** The last comparison: records and manifest are written as this program writes them. */
async function opened(
  source: ByteSource,
  { walk, manifest }: Pick<Compared, 'walk' | 'manifest'>,
  { ids, summed }: ReadRecords,
): Promise<Reading<Backup, BackupProblem>> {
  const [first, last] = [walk.entries[0]!, walk.entries.at(-1)!];
  if (ids === null) return refused(changed('records'));
  const { size: recordCount } = ids;
  if (!same(utf8Of(manifestText(manifest.entries, recordCount)), await source.read(last.bytesAt, last.endAt))) return refused(changed('manifest'));
  const placed = new Map(walk.entries.map((entry, i) => [entry.name, { ...entry, sha256: manifest.entries[i]?.sha256 }]));
  const takeIds = walk.entries.flatMap(({ name }) => takeIdOf(name) ?? []);
  if (!takeIds.every((takeId) => ids.has(takeId))) return refused(changed('take'));
  const readTake = async (takeId: string) => {
    const entry = placed.get(takeEntry(takeId));
    if (!entry) throw new EvenhandError(`the backup does not hold take ${takeId}`);
    const flac = await source.read(entry.bytesAt, entry.endAt);
    if ((await entryOf(entry.name, flac)).sha256 !== entry.sha256) throw new EvenhandError(`${entry.name} was changed while the backup was read`);
    return flac;
  };
  return {
    value: { byteCount: source.byteCount, recordCount, records: () => recordsAgain(source, first, summed.crc), takeIds, readTake },
    problems: [],
  };
}

/** Records of lines that were checked before. @param crc theirs then. */
async function* recordsAgain(source: ByteSource, entry: PlacedEntry, crc: number): AsyncGenerator<readonly DiaryRecord[], void> {
  let now = 0;
  for await (const bytes of linesIn(source, entry)) {
    now = crc32(bytes, now);
    yield readLines(textOf(bytes) ?? '').value ?? [];
  }
  if (now !== crc) throw new EvenhandError(`${entry.name} was changed while the backup was read`);
}
