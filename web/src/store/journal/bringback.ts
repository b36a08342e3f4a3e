/** What a journal holds comes back into a database that lacks it. */
import { type DiaryRecord, type KeepingProblem, mergeRecords, ownerOf } from '@evenhand/core/diary';
import { addMissing, WRITTEN } from '../append.ts';
import { failed } from '../problems.ts';
import type { Replaced } from '../standing.ts';
import type { Database, Identity } from '../tables.ts';
import { inOneTransaction } from '../transaction.ts';
import { entriesOf } from './files.ts';
import { filesIn } from './folder.ts';
import { type Entry, recordsIn } from './lines.ts';

/**
 * Fills an empty database from its journal: who writes there and whether it was replaced, then all records in the order of their making. Cut off, the rest
 * comes when the journal is tended next.
 * @returns what is to be told: how many entries came back; nothing where there were none.
 */
export async function bringBackAll(db: Database, folder: FileSystemDirectoryHandle): Promise<readonly KeepingProblem[]> {
  try {
    const { records, identity, replaced } = await journalIn(folder);
    await putFacts(db, { deviceId: identity?.deviceId, ownerId: ownerOf(records) ?? identity?.ownerId, replaced });
    await bringBack(db, records);
    return records.length > 0 ? [{ code: 'store-brought-back', severity: 'doubtful', params: { recordCount: records.length, isAll: true } }] : [];
  } catch (error) {
    return [failed(error)];
  }
}

/** Records that are put in one transaction. */
const AT_A_TIME = 400;

/** Adds records that are not there, some at a time. @returns how many were added. */
export async function bringBack(db: Database, records: readonly DiaryRecord[]): Promise<number> {
  let count = 0;
  for (let at = 0; at < records.length; at += AT_A_TIME) {
    const added = await inOneTransaction(db, WRITTEN, (transaction) => addMissing(transaction, records.slice(at, at + AT_A_TIME)));
    count += added.records.length;
  }
  return count;
}

interface Held {
  /** Each once, by order of making. */
  readonly records: readonly DiaryRecord[];
  readonly identity: Identity | undefined;
  readonly replaced: Replaced | undefined;
}

async function journalIn(folder: FileSystemDirectoryHandle): Promise<Held> {
  const entries: Entry[] = [];
  for (const file of await filesIn(folder)) for (const entry of await entriesOf(file)) entries.push(entry);
  const identity = entries.flatMap((entry) => ('identity' in entry ? [entry.identity] : [])).at(-1);
  const replaced = entries.flatMap((entry) => ('replaced' in entry ? [entry.replaced] : [])).at(-1);
  return { records: mergeRecords(recordsIn(entries), []), identity, replaced };
}

async function putFacts(
  db: Database,
  known: { readonly [Name in keyof Identity]: string | undefined } & { readonly replaced: Replaced | undefined },
): Promise<void> {
  await inOneTransaction(db, ['facts'], async (transaction) => {
    const facts = transaction.objectStore('facts');
    const made = (await facts.get('identity')) as Identity;
    await facts.put({ deviceId: known.deviceId ?? made.deviceId, ownerId: known.ownerId ?? made.ownerId }, 'identity');
    if (known.replaced) await facts.put(known.replaced, 'replaced');
  });
}
