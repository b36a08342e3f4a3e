/** A checked backup comes beside the diary: all of it or nothing. In the place of the diary it comes by whole.ts. */
import type { Backup } from '@evenhand/adapters/backup';
import {
  type DiaryRecord,
  type ImportPlan,
  type KnownRecord,
  letGoIn,
  type Made,
  observe,
  planImport,
  sameJson,
  upgrade,
} from '@evenhand/core/diary';
import type { Database } from '../store/database.ts';
import { outlineLost } from '../store/outlines.ts';
import { recordsInParts } from '../store/parts.ts';
import { standsStill } from '../store/standing.ts';
import type { TakeRow } from '../store/take-rows.ts';
import { inOneTransaction } from '../store/transaction.ts';
import { takesWithSound } from './pack.ts';
import type { BroughtIn, PlanCounts, Progress } from './protocol.ts';

/** What bringing records in the place of a diary would add and take away (as `planImport` tells it); the diary is read a part at a time. */
export async function countsAgainst(db: Database, incoming: readonly DiaryRecord[]): Promise<PlanCounts> {
  const there = new Map(incoming.map((record) => [record.id, record]));
  const counts = { knownCount: 0, differingCount: 0, removedCount: 0 };
  for await (const part of recordsInParts(db)) {
    for (const record of part) {
      const other = there.get(record.id);
      counts[other === undefined ? 'removedCount' : sameJson(record, other) ? 'knownCount' : 'differingCount']++;
    }
  }
  return { ...counts, addedCount: there.size - counts.knownCount - counts.differingCount };
}

const countsOf = ({ added, knownCount, differingCount, removedCount }: ImportPlan): PlanCounts => ({
  addedCount: added.length,
  knownCount,
  differingCount,
  removedCount,
});

/**
 * Brings a backup in beside what is here. The sound comes first, where no record speaks of it yet; then records and rows change in one transaction.
 * What is thrown on the way leaves the diary as it was.
 */
export async function bringInBeside(db: Database, backup: Backup, tell: (progress: Progress) => void): Promise<BroughtIn> {
  const before = await takesWithSound(db);
  // Sound that was let go here, or in the diary that comes, does not come back by it.
  const gone = letGoIn([...(await db.getAll('records')), ...backup.records]);
  const coming = backup.takeIds.filter((takeId) => !before.includes(takeId) && !gone.has(takeId));
  try {
    await putSound(db, { backup, takeIds: coming }, tell);
    return await join(db, backup, coming.length);
  } catch (error) {
    await Promise.all(coming.map((takeId) => db.delete('flacs', takeId).catch(() => {})));
    throw error;
  }
}

/** Sound that is put in one transaction: some takes, few enough to be in memory together. Assumption: 125 kB each. */
const TAKES_AT_A_TIME = 16;

/** Puts the sound of takes as it came. */
export async function putSound(
  db: Database,
  { backup, takeIds }: { readonly backup: Backup; readonly takeIds: readonly string[] },
  tell: (progress: Progress) => void,
): Promise<void> {
  for (let at = 0; at < takeIds.length; at += TAKES_AT_A_TIME) {
    tell({ part: 'sound', share: at / takeIds.length });
    const some = await Promise.all(
      // A copy: what was read may be a window on more.
      takeIds.slice(at, at + TAKES_AT_A_TIME).map(async (takeId) => ({ takeId, flac: Uint8Array.from(await backup.readTake(takeId)) })),
    );
    const transaction = db.transaction('flacs', 'readwrite');
    await Promise.all([...some.map((one) => transaction.store.put(one)), transaction.done]);
  }
}

/** The one transaction. */
const join = (db: Database, backup: Backup, takeCount: number): Promise<BroughtIn> =>
  inOneTransaction(db, ['records', 'facts', 'takes', 'outlines'], async (transaction) => {
    const facts = transaction.objectStore('facts');
    await standsStill(facts);
    const plan = planImport(await transaction.objectStore('records').getAll(), backup.records, 'merge');
    for (const record of plan.records) await transaction.objectStore('records').put(record);
    await outlineLost({ facts });
    const takes = transaction.objectStore('takes');
    for (const row of rowsOf(backup.records, backup.takeIds)) if ((await takes.getKey(row.takeId)) === undefined) await takes.put(row);
    const last = latestOf(((await facts.get('stamp')) as Made | undefined) ?? null, plan.added);
    if (last) await facts.put(last, 'stamp');
    return { mode: 'merge', ...countsOf(plan), takeCount, keptAside: false };
  });

/** A row for each take of a backup that has sound; a record of a version this one does not know gets none, and its sound only travels on. */
export function rowsOf(records: readonly DiaryRecord[], takeIds: readonly string[]): readonly TakeRow[] {
  const coming = new Set(takeIds);
  return records.flatMap((record) => {
    const take = coming.has(record.id) ? upgrade(record) : null;
    return take?.kind === 'take' ? [rowOf(take)] : [];
  });
}

function rowOf({ id, atMs, zone, day, body: { sessionId, clock } }: KnownRecord<'take'>): TakeRow {
  const { sampleRateHz, contextFrame0, wallMs0, latencySec, latencyFrom } = clock;
  return { takeId: id, state: 'closed', sessionId, sampleRateHz, fromFrame: contextFrame0, wallMs0, latencySec, latencyFrom, atMs, zone, day };
}

/** What this device writes next is later than all it has seen. */
export const latestOf = (last: Made | null, seen: readonly DiaryRecord[]): Made | null =>
  seen.reduce((latest, { made }) => observe(latest, made, Date.now()), last);
