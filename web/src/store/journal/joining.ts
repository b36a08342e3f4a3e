/** Files of a journal that are packed: copies of what a database holds, and many small ones made one. */

import { newId } from '../id.ts';
import { recordsAt } from '../parts.ts';
import type { Database, Identity } from '../tables.ts';
import { entriesOf } from './files.ts';
import { filesIn, type JournalFile, joinedName, REPLACED_NAME } from './folder.ts';
import { type Entry, entriesIn, lengthOfLines, lineOf, recordsIn } from './lines.ts';
import { addTo, openSync, type SyncFile } from './syncfile.ts';

/** Records to a line of what is copied. Assumption. */
const TO_A_LINE = 50;

/** Copies some records of a database into a file of their own. */
export async function packRecords(folder: FileSystemDirectoryHandle, db: Database, ids: readonly string[]): Promise<void> {
  const entries: Entry[] = [{ journal: 1, identity: (await db.get('facts', 'identity')) as Identity }];
  for (let at = 0; at < ids.length; at += TO_A_LINE) {
    const records = await recordsAt(db, ids.slice(at, at + TO_A_LINE));
    entries.push({ records: records.filter((record) => record !== undefined) });
  }
  await writeJoined(folder, entries);
}

/** A file with fewer records is small. Assumption: ten years are then some sixty files. */
const SMALL = 1000;
/** So many small ones are joined, */
const MANY = 8;
/** and fewer when there is so much in those that are not packed: they are read at every opening, behind the first screen. Assumption. */
const MUCH_BYTES = 256_000;

/** Joins the small files of a journal into one, where they are many or large; those that are written to stay, and of the others only what was written stays. */
export async function joinSmall(folder: FileSystemDirectoryHandle): Promise<void> {
  await leaveLines(folder);
  const small: JournalFile[] = [];
  let begunBytes = 0;
  for (const file of await filesIn(folder)) {
    if (file.name === REPLACED_NAME) continue;
    if (file.recordCount === null ? !(await isAtRest(folder, file.name)) : file.recordCount >= SMALL) continue;
    small.push(file);
    if (file.recordCount === null) begunBytes += (await file.handle.getFile()).size;
  }
  if (small.length < MANY && begunBytes < MUCH_BYTES) return;
  const entries: Entry[] = [];
  for (const file of small) for (const entry of await entriesOf(file)) entries.push(entry);
  await writeJoined(folder, entries);
  // Cut off before this, some records stand in the journal twice: that harms nothing.
  for (const { name } of small) await folder.removeEntry(name);
}

/** The room behind the lines goes, and the files of pages that wrote nothing. One without a first line may be a page's that is about to write it. */
async function leaveLines(folder: FileSystemDirectoryHandle): Promise<void> {
  for (const { name, handle, recordCount } of await filesIn(folder)) {
    if (recordCount !== null || name === REPLACED_NAME || !(await isAtRest(folder, name))) continue;
    const bytes = new Uint8Array(await (await handle.getFile()).arrayBuffer());
    const entries = entriesIn(bytes);
    if (entries.length > 0 && recordsIn(entries).length === 0) await folder.removeEntry(name);
    else if (lengthOfLines(bytes) < bytes.length) await cutTo(lengthOfLines(bytes), await openSync(folder, name));
  }
}

async function cutTo(length: number, file: SyncFile): Promise<void> {
  await file.truncate(length);
  await file.close();
}

/** Nobody writes to it; the name of a file is given once, so nobody will. */
async function isAtRest(folder: FileSystemDirectoryHandle, name: string): Promise<boolean> {
  try {
    await (await openSync(folder, name)).close();
    return true;
  } catch {
    return false;
  }
}

async function writeJoined(folder: FileSystemDirectoryHandle, entries: readonly Entry[]): Promise<void> {
  const bytes = await packed(entries);
  const file = await openSync(folder, joinedName(newId(), recordsIn(entries).length));
  try {
    await addTo(file, bytes, 0);
  } finally {
    await file.close();
  }
}

async function packed(entries: readonly Entry[]): Promise<Uint8Array> {
  const packing = new CompressionStream('gzip');
  const bytes = new Response(packing.readable).arrayBuffer();
  const writer = packing.writable.getWriter();
  for (const entry of entries) await writer.write(lineOf(entry));
  await writer.close();
  return new Uint8Array(await bytes);
}
