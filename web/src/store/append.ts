/** Drafts become records inside one transaction, stamped by the clock that lies beside them. */
import { type DiaryRecord, type Made, nextStamp, observe, type RecordDraft, writeRecord } from '@evenhand/core/diary';
import type { IDBPTransaction } from 'idb';
import type { Identity, Tables } from './database.ts';
import { newId } from './id.ts';
import { outline } from './outlines.ts';
import { standsStill } from './standing.ts';

/** The stores that a record is written with. */
export const WRITTEN = ['records', 'facts', 'outlines', 'takes', 'chunks'] as const;

type Writing = IDBPTransaction<Tables, (typeof WRITTEN)[number][], 'readwrite'>;

const outlineTables = (transaction: Writing) => ({ facts: transaction.objectStore('facts'), outlines: transaction.objectStore('outlines') });

/** Writes drafts; tabs and Worker take turns, so no two records of a device get one stamp. The caller awaits `done`. */
export async function writeDrafts(transaction: Writing, drafts: readonly RecordDraft[]): Promise<readonly DiaryRecord[]> {
  const facts = transaction.objectStore('facts');
  await standsStill(facts);
  const { deviceId, ownerId } = (await facts.get('identity')) as Identity;
  let last = ((await facts.get('stamp')) as Made | undefined) ?? null;
  const records = drafts.map((draft) => {
    last = nextStamp(last, Date.now(), deviceId);
    return writeRecord(draft, { id: newId(), ownerId, made: last });
  });
  await Promise.all(records.map((record) => transaction.objectStore('records').add(record)));
  if (last) await facts.put(last, 'stamp');
  await outline(outlineTables(transaction), records);
  return records;
}

/** Adds records from elsewhere that are not here yet, and remembers their stamps. Gives how many were new. */
export async function writeForeign(transaction: Writing, records: readonly DiaryRecord[]): Promise<number> {
  const facts = transaction.objectStore('facts');
  await standsStill(facts);
  const store = transaction.objectStore('records');
  let last = ((await facts.get('stamp')) as Made | undefined) ?? null;
  const added: DiaryRecord[] = [];
  for (const record of records) {
    if ((await store.getKey(record.id)) !== undefined) continue;
    await store.add(record);
    last = observe(last, record.made, Date.now());
    added.push(record);
  }
  if (last) await facts.put(last, 'stamp');
  await outline(outlineTables(transaction), added);
  return added.length;
}
