/** What a journal holds comes back into a database that lacks it. */
import { compareRecords, type DiaryRecord, type KeepingProblem, type Made, observe } from '@evenhand/core/diary';
import { unwrap } from 'idb';
import { addMissing, WRITTEN } from '../append.ts';
import { recordsGoneBy } from '../goneby.ts';
import type { Outlined } from '../outlined.ts';
import { outlineAnew } from '../outlines.ts';
import { failed } from '../problems.ts';
import type { Replaced } from '../standing.ts';
import type { Database, Identity } from '../tables.ts';
import { inOneTransaction } from '../transaction.ts';
import { entriesOf } from './files.ts';
import { filesIn } from './folder.ts';
import { type Entry, recordsIn } from './lines.ts';

/**
 * Fills an empty database from its journal, a file at a time: all records, then who writes there and whether it was replaced, then the outline, in the
 * order of their making. One page or Worker does it, others wait. Cut off, it is done again by who opens it next, with what is there by then.
 * @param tell how far it is, 0 to 1.
 * @returns what is to be told: how many entries came back; nothing where there were none, or another page was first.
 */
export async function bringBackAll(
  db: Database,
  folder: FileSystemDirectoryHandle,
  tell: (share: number) => void,
): Promise<readonly KeepingProblem[]> {
  try {
    const recordCount = await navigator.locks.request(`${db.name}-returning`, () => returned(db, folder, tell));
    return recordCount > 0 ? [{ code: 'store-brought-back', severity: 'doubtful', params: { recordCount, isAll: true } }] : [];
  } catch (error) {
    return [failed(error)];
  }
}

/** The share of the time that the records take; the outline takes the rest. @tuned bench/diary */
const RECORDS_SHARE = 0.6;

async function returned(db: Database, folder: FileSystemDirectoryHandle, tell: (share: number) => void): Promise<number> {
  if (!(await isEmpty(db))) return 0;
  const files = await filesIn(folder);
  const there = new Set(await db.getAllKeys('records'));
  const inJournal = new Set<string>();
  let known: Known = { first: null, identity: undefined, replaced: undefined, last: null };
  for (const [k, file] of files.entries()) {
    const entries = await entriesOf(file);
    const records = recordsIn(entries);
    // Nothing was lost where somebody writes to the diary for the first time just now. Its line is written once its transaction is handed over, so this
    // question waits for that.
    if (records.length > 0 && !(await isEmpty(db))) return 0;
    if (records.length > 0) tell((RECORDS_SHARE * k) / files.length);
    known = knownWith(known, entries);
    await putNew(db, records, there);
    for (const { id } of records) inJournal.add(id);
  }
  await putFacts(db, known);
  if (inJournal.size > 0) await outlineAnew(db, (share) => tell(RECORDS_SHARE + (1 - RECORDS_SHARE) * share));
  return inJournal.size;
}

/** Nobody has written to it through its outline yet; what is brought back counts only when all of it is there. */
const isEmpty = async (db: Database): Promise<boolean> => ((await db.get('facts', 'outlined')) as Outlined | undefined)?.count === 0;

/** Puts those that are not there; the outline is made when all are. */
async function putNew(db: Database, records: readonly DiaryRecord[], there: Set<string>): Promise<void> {
  for (let at = 0; at < records.length; at += AT_A_TIME) {
    const some = records.slice(at, at + AT_A_TIME);
    const transaction = db.transaction('records', 'readwrite');
    // What cannot be put ends the transaction: no promise is needed for each.
    const table = unwrap(transaction.store);
    for (const record of some) if (!there.has(record.id)) table.put(record);
    await transaction.done;
    for (const { id } of some) there.add(id);
    recordsGoneBy(some.length);
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

/** What is remembered of what went by. */
interface Known {
  /** The record that was made first: whose diary it is. */
  readonly first: Pick<DiaryRecord, 'id' | 'made' | 'ownerId'> | null;
  readonly identity: Identity | undefined;
  readonly replaced: Replaced | undefined;
  /** The latest stamp. */
  readonly last: Made | null;
}

function knownWith(known: Known, entries: readonly Entry[]): Known {
  let { first, last } = known;
  for (const { id, made, ownerId } of recordsIn(entries)) {
    if (first === null || compareRecords({ id, made }, first) < 0) first = { id, made, ownerId };
    last = observe(last, made, Date.now());
  }
  return {
    first,
    last,
    identity: entries.flatMap((entry) => ('identity' in entry ? [entry.identity] : [])).at(-1) ?? known.identity,
    replaced: entries.flatMap((entry) => ('replaced' in entry ? [entry.replaced] : [])).at(-1) ?? known.replaced,
  };
}

async function putFacts(db: Database, { first, identity, replaced, last }: Known): Promise<void> {
  await inOneTransaction(db, ['facts'], async (transaction) => {
    const facts = transaction.objectStore('facts');
    const made = (await facts.get('identity')) as Identity;
    await facts.put({ deviceId: identity?.deviceId ?? made.deviceId, ownerId: first?.ownerId ?? identity?.ownerId ?? made.ownerId }, 'identity');
    if (last) await facts.put(last, 'stamp');
    if (replaced) await facts.put(replaced, 'replaced');
  });
}
