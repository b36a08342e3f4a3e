/** The records of a diary, a part at a time, so that a long one does not hold up whoever else waits, and is never in memory whole. */
import { compareRecords, type DiaryRecord } from '@evenhand/core/diary';
import { unwrap } from 'idb';
import { recordsGoneBy } from './goneby.ts';
import type { Database } from './tables.ts';

/** Records that are read at a time: so many take a few hundredths of a second. */
const AT_A_TIME = 500;
/** Of those that are asked for one by one fewer are at once in memory: what lives shortly is cleared away cheaply. @tuned bench/diary */
const IDS_AT_A_TIME = 100;

/** By rising id; none of an empty diary. What is written meanwhile may be among them or not. */
export async function* recordsInParts(db: Database): AsyncGenerator<readonly DiaryRecord[]> {
  for (let after: string | null = null; ; ) {
    const part: DiaryRecord[] = await db.getAll('records', after === null ? null : IDBKeyRange.lowerBound(after, true), AT_A_TIME);
    if (part.length > 0) yield part;
    recordsGoneBy(part.length);
    if (part.length < AT_A_TIME) return;
    after = part.at(-1)!.id;
  }
}

/** The ids of all records in order of making. @param look is shown every record on the way, by rising id. */
export async function idsInOrder(db: Database, look: (record: DiaryRecord) => void): Promise<readonly string[]> {
  const stamps: Pick<DiaryRecord, 'id' | 'made'>[] = [];
  for await (const part of recordsInParts(db)) {
    for (const record of part) {
      const { id, made } = record;
      stamps.push({ id, made });
      look(record);
    }
  }
  return stamps.sort(compareRecords).map(({ id }) => id);
}

/** The records of ids in their order, a part at a time. */
export async function* recordsOfIds(db: Database, ids: readonly string[]): AsyncGenerator<readonly DiaryRecord[]> {
  for (let at = 0; at < ids.length; at += IDS_AT_A_TIME)
    yield (await recordsAt(db, ids.slice(at, at + IDS_AT_A_TIME))).filter((one) => one !== undefined);
}

/** The record of each id, undefined where it is not here; read in one transaction. */
export async function recordsAt(db: Database, ids: readonly string[]): Promise<readonly (DiaryRecord | undefined)[]> {
  const transaction = db.transaction('records');
  // Not a promise for each: tens of thousands of them are more to clear away than the records.
  const bare = unwrap(transaction.objectStore('records'));
  const asked = ids.map((id): IDBRequest<DiaryRecord | undefined> => bare.get(id));
  await transaction.done;
  recordsGoneBy(ids.length);
  return asked.map(({ result }) => result);
}
