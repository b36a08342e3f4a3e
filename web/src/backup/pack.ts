/** The diary of a database becomes one file, take after take. */
import { type Backup, type BackupTake, writeBackup } from '@evenhand/adapters/backup';
import { encodeFlac } from '@evenhand/adapters/flac';
import { type DiaryRecord, letGoIn, mergeRecords } from '@evenhand/core/diary';
import type { Database } from '../store/database.ts';
import { chunksOf, joinChunks } from '../store/take-rows.ts';
import { storedSound } from '../store/takes.ts';
import type { PackedDiary, Progress } from './protocol.ts';

const ZIP = { type: 'application/zip' };

/** Packs all records and all sound that is here. A take that is being recorded comes into the next backup. */
export async function packDiary(db: Database, part: Progress['part'], tell: (progress: Progress) => void): Promise<PackedDiary> {
  const records = await db.getAll('records');
  const takeIds = await takesToKeep(db, records);
  const pieces: Blob[] = [];
  async function* takes(): AsyncGenerator<BackupTake> {
    for (const [i, takeId] of takeIds.entries()) {
      tell({ part, share: i / takeIds.length });
      yield { takeId, flac: await flacOf(db, takeId) };
    }
  }
  // Each piece a Blob of its own: the browser may put it on the disk, and no more than one take is in memory.
  for await (const piece of writeBackup(records, takes())) pieces.push(new Blob([piece as Uint8Array<ArrayBuffer>]));
  return { file: new Blob(pieces, ZIP), recordCount: records.length, takeCount: takeIds.length };
}

/** A diary that lies in a database of its own, as if it came out of a backup; it is trusted as it is. */
export async function backupOf(db: Database): Promise<Backup> {
  const records = mergeRecords(await db.getAll('records'), []);
  const takeIds = await takesToKeep(db, records);
  return { byteCount: 0, records, takeIds, readTake: (takeId) => flacOf(db, takeId) };
}

/** Takes with sound that a record speaks of, but for those whose sound stands let go. */
async function takesToKeep(db: Database, records: readonly DiaryRecord[]): Promise<readonly string[]> {
  const known = new Set(records.map(({ id }) => id));
  const gone = letGoIn(records);
  return (await takesWithSound(db)).filter((takeId) => known.has(takeId) && !gone.has(takeId));
}

/** Ids of takes whose sound is in the store and complete, rising. What is stored counts, not what a record says of it. */
export async function takesWithSound(db: Database): Promise<readonly string[]> {
  const transaction = db.transaction(['takes', 'chunks', 'flacs']);
  const [rows, packed] = await Promise.all([transaction.objectStore('takes').getAll(), transaction.objectStore('flacs').getAllKeys()]);
  const closed = rows.filter(({ state }) => state === 'closed').map(({ takeId }) => takeId);
  const first = await Promise.all(closed.map((takeId) => transaction.objectStore('chunks').getKey(chunksOf(takeId))));
  const recorded = closed.filter((_, i) => first[i] !== undefined);
  return [...new Set([...recorded, ...packed])].sort();
}

/** A take that is packed goes out as it is; packing gives the same bytes whenever it is done. */
async function flacOf(db: Database, takeId: string): Promise<Uint8Array> {
  const { packed, chunks } = await storedSound(db, takeId);
  if (packed) return packed.flac;
  const row = await db.get('takes', takeId);
  return encodeFlac(joinChunks(chunks), row!.sampleRateHz);
}
