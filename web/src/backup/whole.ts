/**
 * A checked backup takes the place of the diary. It is written into a database of its own, a part at a time; then the present one is marked as replaced in
 * one small transaction (store/standing.ts), and stays aside as it is. Cut off before that, the diary is as it was; after it, the restored one stands.
 */
import type { Backup } from '@evenhand/adapters/backup';
import { type DiaryRecord, type Made, observe, ownerOf } from '@evenhand/core/diary';
import { unwrap } from 'idb';
import { clearLeft, inDatabase, restoring } from '../store/asides.ts';
import type { Database, Identity } from '../store/database.ts';
import { recordsGoneBy } from '../store/goneby.ts';
import { newId } from '../store/id.ts';
import { outline } from '../store/outlines.ts';
import { nextName, replacedIn, standsStill } from '../store/standing.ts';
import { chunksOf, type TakeRow } from '../store/take-rows.ts';
import { latestOf, putSound, rowsOf } from './bring-in.ts';
import { takesWithSound } from './pack.ts';
import type { BroughtIn, PlanCounts, Progress } from './protocol.ts';

/** What is brought in, and where. */
export interface Whole {
  /** The diary's name. */
  readonly storeName: string;
  readonly backup: Backup;
  /** What it adds and takes away, as it was asked. */
  readonly counts: PlanCounts;
}

/** @param db holds the diary now. What is thrown on the way leaves it as it was. */
export const bringInWhole = (db: Database, whole: Whole, tell: (progress: Progress) => void): Promise<BroughtIn> =>
  restoring(whole.storeName, async () => {
    await clearLeft(whole.storeName);
    const by = nextName(whole.storeName, newId());
    try {
      return await inDatabase(by, async (next) => {
        await putDiary(db, next, whole.backup, tell);
        const recordCount = await replace(db, next);
        return { mode: 'whole', ...whole.counts, takeCount: whole.backup.takeIds.length, keptAside: recordCount > 0 };
      });
    } catch (error) {
      // Nothing leads to it: a browser that does not let it go now does so the next time.
      if ((await replacedIn(db).catch(() => undefined))?.by !== by) await clearLeft(whole.storeName).catch(() => {});
      throw error;
    }
  });

async function putDiary(db: Database, next: Database, backup: Backup, tell: (progress: Progress) => void): Promise<void> {
  const seen = await putRecords(next, backup, tell);
  await putFacts(db, next, seen);
  await putSound(next, { backup, takeIds: backup.takeIds }, tell);
}

/** What is remembered of records that went by. */
interface Seen {
  /** Whose diary it is; null for no records. */
  readonly ownerId: string | null;
  /** The latest stamp. */
  readonly last: Made | null;
}

/** Puts the records as they come, some at a time, with the rows of those takes that have sound. */
async function putRecords(next: Database, backup: Backup, tell: (progress: Progress) => void): Promise<Seen> {
  const takeIds = new Set(backup.takeIds);
  let seen: Seen = { ownerId: null, last: null };
  let before: Promise<void> = Promise.resolve();
  let count = 0;
  for await (const some of gathered(backup.records())) {
    tell({ part: 'entries', share: count / backup.recordCount });
    count += some.length;
    seen = { ownerId: seen.ownerId ?? ownerOf(some), last: latestOf(seen.last, some) };
    // What comes next is read while this is written.
    await before;
    before = putSome(next, some, rowsOf(some, takeIds));
    before.catch(() => {});
  }
  await before;
  return seen;
}

/** Records that are put in one transaction, at least: each writes the end of the outline anew. */
const RECORDS_AT_A_TIME = 400;

async function* gathered(parts: AsyncIterable<readonly DiaryRecord[]>): AsyncGenerator<readonly DiaryRecord[]> {
  let some: readonly DiaryRecord[] = [];
  for await (const part of parts) {
    some = [...some, ...part];
    if (some.length < RECORDS_AT_A_TIME) continue;
    yield some;
    some = [];
  }
  if (some.length > 0) yield some;
}

async function putSome(next: Database, some: readonly DiaryRecord[], rows: readonly TakeRow[]): Promise<void> {
  const transaction = next.transaction(['records', 'facts', 'outlines', 'takes'], 'readwrite');
  // What cannot be put ends the transaction: no promise is needed for each.
  const records = unwrap(transaction.objectStore('records'));
  for (const record of some) records.put(record);
  const takes = unwrap(transaction.objectStore('takes'));
  for (const row of rows) takes.put(row);
  await Promise.all([outline({ facts: transaction.objectStore('facts'), outlines: transaction.objectStore('outlines') }, some), transaction.done]);
  recordsGoneBy(some.length);
}

/** It is written on by this device, in the name of the diary that came in. */
async function putFacts(db: Database, next: Database, seen: Seen): Promise<void> {
  const [identity, stamp, persistence] = await Promise.all([db.get('facts', 'identity'), db.get('facts', 'stamp'), db.get('facts', 'persistence')]);
  const { deviceId, ownerId } = identity as Identity;
  const here = (stamp as Made | undefined) ?? null;
  const last = seen.last === null ? here : observe(here, seen.last, Date.now());
  const transaction = next.transaction('facts', 'readwrite');
  await transaction.store.put({ deviceId, ownerId: seen.ownerId ?? ownerId }, 'identity');
  if (last) await transaction.store.put(last, 'stamp');
  if (persistence !== undefined) await transaction.store.put(persistence, 'persistence');
  await transaction.done;
}

/** The moment: from here on the next database holds the diary. @returns how many records are kept aside. */
async function replace(db: Database, next: Database): Promise<number> {
  const takeCount = (await takesWithSound(db)).length;
  for (;;) {
    // What is recorded just now goes on in the next one.
    const open = await openTakes(db);
    await putOpen(next, open);
    // A last write that is safe from a power cut, and all before it with it.
    await touch(next);
    const transaction = db.transaction(['records', 'takes', 'chunks', 'facts'], 'readwrite', { durability: 'strict' });
    const facts = transaction.objectStore('facts');
    await standsStill(facts);
    const rows = (await transaction.objectStore('takes').getAll()).filter(({ state }) => state === 'open');
    const counts = await Promise.all(rows.map(({ takeId }) => transaction.objectStore('chunks').count(chunksOf(takeId))));
    const isAsRead =
      rows.length === open.length && rows.every(({ takeId }, k) => open.some((one) => one.row.takeId === takeId && one.count === counts[k]));
    const recordCount = await transaction.objectStore('records').count();
    if (isAsRead) await facts.put({ by: next.name, atMs: Date.now(), recordCount, takeCount, letGo: recordCount === 0 }, 'replaced');
    await transaction.done;
    if (isAsRead) return recordCount;
  }
}

interface OpenTake {
  readonly row: TakeRow;
  readonly count: number;
  readonly chunks: Awaited<ReturnType<typeof chunksIn>>;
}

const chunksIn = (db: Database, takeId: string) => db.getAll('chunks', chunksOf(takeId));

async function openTakes(db: Database): Promise<readonly OpenTake[]> {
  const rows = (await db.getAll('takes')).filter(({ state }) => state === 'open');
  return Promise.all(
    rows.map(async (row) => {
      const chunks = await chunksIn(db, row.takeId);
      return { row, chunks, count: chunks.length };
    }),
  );
}

async function putOpen(next: Database, open: readonly OpenTake[]): Promise<void> {
  const transaction = next.transaction(['takes', 'chunks'], 'readwrite');
  for (const { row, chunks } of open) {
    await transaction.objectStore('takes').put(row);
    for (const chunk of chunks) await transaction.objectStore('chunks').put(chunk);
  }
  await transaction.done;
}

async function touch(next: Database): Promise<void> {
  const transaction = next.transaction('facts', 'readwrite', { durability: 'strict' });
  await transaction.store.put((await transaction.store.get('identity'))!, 'identity');
  await transaction.done;
}
