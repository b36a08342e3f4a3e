/** The diary of a database becomes one file, some records and then take after take, so that no more is in memory than that. */
import { type Backup, type BackupTake, writeBackup } from '@evenhand/adapters/backup';
import { encodeFlac } from '@evenhand/adapters/flac';
import { type DiaryRecord, letGoIn, tellsOfLettingGo } from '@evenhand/core/diary';
import type { Database } from '../store/database.ts';
import { bytesGoneBy } from '../store/goneby.ts';
import { idsInOrder, recordsOfIds } from '../store/parts.ts';
import { diaryOf } from '../store/standing.ts';
import { chunksOf, joinChunks } from '../store/take-rows.ts';
import { storedSound } from '../store/takes.ts';
import type { PackedDiary, Progress } from './protocol.ts';
import { spool } from './spool.ts';

/** Packs all records and all sound that is here. A take that is being recorded comes into the next backup. */
export async function packDiary(db: Database, part: Progress['part'], tell: (progress: Progress) => void): Promise<PackedDiary> {
  const { ids, takeIds } = await toKeep(db);
  async function* takes(): AsyncGenerator<BackupTake> {
    for (const [i, takeId] of takeIds.entries()) {
      tell({ part, share: i / takeIds.length });
      const flac = await flacOf(db, takeId);
      yield { takeId, flac };
      bytesGoneBy(flac.length);
    }
  }
  const file = await spool(diaryOf(db.name), () => writeBackup(recordsOfIds(db, ids), takes()));
  return { file, recordCount: ids.length, takeCount: takeIds.length };
}

/** A diary that lies in a database of its own, as if it came out of a backup; it is trusted as it is. */
export async function backupOf(db: Database): Promise<Backup> {
  const { ids, takeIds } = await toKeep(db);
  return { byteCount: 0, recordCount: ids.length, records: () => recordsOfIds(db, ids), takeIds, readTake: (takeId) => flacOf(db, takeId) };
}

/** All records in order of making, and the takes with sound that one of them speaks of, but for those whose sound stands let go. */
async function toKeep(db: Database): Promise<{ readonly ids: readonly string[]; readonly takeIds: readonly string[] }> {
  const gone = lettingGo();
  const ids = await idsInOrder(db, gone.look);
  const known = new Set(ids);
  const letGo = gone.found();
  return { ids, takeIds: (await takesWithSound(db)).filter((takeId) => known.has(takeId) && !letGo.has(takeId)) };
}

/** Finds out whose sound was let go, from records that are seen one after another: only those that tell it are kept. */
export function lettingGo(): { look(record: DiaryRecord): void; found(): ReadonlyMap<string, string> } {
  const telling: DiaryRecord[] = [];
  return {
    look(record) {
      if (tellsOfLettingGo(record)) telling.push(record);
    },
    found: () => letGoIn(telling),
  };
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
