/** A checked backup comes into a database: all of it or nothing, and what goes is kept aside. */
import type { Backup } from '@evenhand/adapters/backup';
import {
  type DiaryRecord,
  type ImportMode,
  type ImportPlan,
  type KnownRecord,
  type Made,
  observe,
  ownerOf,
  planImport,
  upgrade,
} from '@evenhand/core/diary';
import type { Database, Identity } from '../store/database.ts';
import { outlineLost } from '../store/outlines.ts';
import { type Aside, chunksOf, type TakeRow } from '../store/take-rows.ts';
import { packDiary, takesWithSound } from './pack.ts';
import type { BroughtIn, PackedDiary, PlanCounts, Progress } from './protocol.ts';

const ALL = ['records', 'facts', 'takes', 'chunks', 'flacs', 'asides'] as const;

export const countsOf = ({ added, knownCount, differingCount, removedCount }: ImportPlan): PlanCounts => ({
  addedCount: added.length,
  knownCount,
  differingCount,
  removedCount,
});

/**
 * Brings a backup in. The sound comes first, where no record speaks of it yet; then records, rows and what goes change in one transaction. What is
 * thrown on the way leaves the diary as it was.
 * @param mode whole: in the place of what is here, which is packed and kept aside first. merge: beside it.
 */
export async function bringIn(db: Database, backup: Backup, mode: ImportMode, tell: (progress: Progress) => void): Promise<BroughtIn> {
  const before = await takesWithSound(db);
  const coming = mode === 'whole' ? backup.takeIds : backup.takeIds.filter((takeId) => !before.includes(takeId));
  const strangers = coming.filter((takeId) => !before.includes(takeId));
  try {
    await putSound(db, backup, coming, tell);
    for (;;) {
      const aside = mode === 'whole' && (await db.count('records')) > 0 ? await packDiary(db, 'aside', tell) : null;
      const done = await exchange(db, backup, { mode, coming, aside });
      // Somebody wrote meanwhile: what is kept aside must have that too.
      if (done) return done;
    }
  } catch (error) {
    await Promise.all(strangers.map((takeId) => db.delete('flacs', takeId).catch(() => {})));
    throw error;
  }
}

async function putSound(db: Database, backup: Backup, takeIds: readonly string[], tell: (progress: Progress) => void): Promise<void> {
  for (const [i, takeId] of takeIds.entries()) {
    tell({ part: 'sound', share: i / takeIds.length });
    // A copy: what was read may be a window on more.
    await db.put('flacs', { takeId, flac: Uint8Array.from(await backup.readTake(takeId)) });
  }
}

interface Exchange {
  readonly mode: ImportMode;
  readonly coming: readonly string[];
  readonly aside: PackedDiary | null;
}

/** The one transaction. Null, with nothing done, when the diary is not any more what is kept aside. */
async function exchange(db: Database, backup: Backup, { mode, coming, aside }: Exchange): Promise<BroughtIn | null> {
  const transaction = db.transaction(ALL, 'readwrite', { durability: 'strict' });
  try {
    const present = await transaction.objectStore('records').getAll();
    if (mode === 'whole' && present.length !== (aside?.recordCount ?? 0)) {
      await transaction.done;
      return null;
    }
    const plan = planImport(present, backup.records, mode);
    // Its `id` is given by the store.
    if (aside) await transaction.objectStore('asides').add({ atMs: Date.now(), ...aside } as Aside);
    if (mode === 'whole') await clear(transaction, new Set(backup.takeIds));
    for (const record of plan.records) await transaction.objectStore('records').put(record);
    await outlineLost({ facts: transaction.objectStore('facts') });
    await putRows(transaction, backup.records, backup.takeIds);
    await putFacts(transaction, mode === 'whole' ? plan.records : plan.added, mode === 'whole' ? ownerOf(backup.records) : null);
    await transaction.done;
    return { mode, ...countsOf(plan), takeCount: coming.length, keptAside: aside !== null };
  } catch (error) {
    transaction.done.catch(() => {});
    try {
      transaction.abort();
    } catch {
      // It was aborted already by the error that led here.
    }
    throw error;
  }
}

type Exchanging = ReturnType<typeof writing>;
/** Never called: it names the type of the transaction. */
const writing = (db: Database) => db.transaction(ALL, 'readwrite');

/** Removes the records, and every take but those being recorded now and those of the backup. */
async function clear(transaction: Exchanging, stays: ReadonlySet<string>): Promise<void> {
  const takes = transaction.objectStore('takes');
  const flacs = transaction.objectStore('flacs');
  await transaction.objectStore('records').clear();
  for (const { takeId, state } of await takes.getAll()) {
    if (state === 'open') continue;
    await takes.delete(takeId);
    await transaction.objectStore('chunks').delete(chunksOf(takeId));
  }
  for (const takeId of await flacs.getAllKeys()) if (!stays.has(takeId)) await flacs.delete(takeId);
}

/** A row for each take of the backup that has none, sound left by an attempt that was cut off included; a record of a version this one does not know gets none, and its sound only travels on. */
async function putRows(transaction: Exchanging, records: readonly DiaryRecord[], takeIds: readonly string[]): Promise<void> {
  const coming = new Set(takeIds);
  const takes = transaction.objectStore('takes');
  for (const record of records) {
    const take = coming.has(record.id) ? upgrade(record) : null;
    if (take?.kind === 'take' && (await takes.getKey(take.id)) === undefined) await takes.put(rowOf(take));
  }
}

function rowOf({ id, atMs, zone, day, body: { sessionId, clock } }: KnownRecord<'take'>): TakeRow {
  const { sampleRateHz, contextFrame0, wallMs0, latencySec, latencyFrom } = clock;
  return { takeId: id, state: 'closed', sessionId, sampleRateHz, fromFrame: contextFrame0, wallMs0, latencySec, latencyFrom, atMs, zone, day };
}

/** What this device writes next is later than all it has seen, and after a whole exchange in the name of the diary that came in. */
async function putFacts(transaction: Exchanging, seen: readonly DiaryRecord[], ownerId: string | null): Promise<void> {
  const facts = transaction.objectStore('facts');
  const now = Date.now();
  let last = ((await facts.get('stamp')) as Made | undefined) ?? null;
  for (const { made } of seen) last = observe(last, made, now);
  if (last) await facts.put(last, 'stamp');
  if (ownerId) await facts.put({ ...((await facts.get('identity')) as Identity), ownerId }, 'identity');
}
