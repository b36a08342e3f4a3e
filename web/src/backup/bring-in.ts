/** A checked backup comes beside the diary: all of it or nothing. In the place of the diary it comes by whole.ts. */
import type { Backup } from '@evenhand/adapters/backup';
import { type DiaryRecord, type KnownRecord, type Made, mergeRecords, observe, sameJson, upgrade } from '@evenhand/core/diary';
import type { Database } from '../store/database.ts';
import { outline, outlineLost } from '../store/outlines.ts';
import { recordsAt, recordsInParts } from '../store/parts.ts';
import { standsStill } from '../store/standing.ts';
import type { TakeRow } from '../store/take-rows.ts';
import { inOneTransaction } from '../store/transaction.ts';
import { lettingGo, takesWithSound } from './pack.ts';
import type { BroughtIn, PlanCounts, Progress } from './protocol.ts';

/** What is told of records that may come in. */
export interface Counted {
  /** What bringing them in the place of the diary would add and take away (as `planImport` tells it). */
  readonly counts: PlanCounts;
  readonly firstDay: string | null;
  readonly lastDay: string | null;
}

/** Holds records that may come in against the diary, some at a time. */
export function countingAgainst(db: Database): { look(some: readonly DiaryRecord[]): Promise<void>; counted(): Promise<Counted> } {
  const counts = { addedCount: 0, knownCount: 0, differingCount: 0 };
  let [firstDay, lastDay]: [string | null, string | null] = [null, null];
  return {
    async look(some) {
      const present = await recordsAt(db, idsOf(some));
      for (const [k, record] of some.entries()) {
        const here = present[k];
        counts[here === undefined ? 'addedCount' : sameJson(here, record) ? 'knownCount' : 'differingCount']++;
        if (firstDay === null || record.day < firstDay) firstDay = record.day;
        if (lastDay === null || record.day > lastDay) lastDay = record.day;
      }
    },
    async counted() {
      const removedCount = (await db.count('records')) - counts.knownCount - counts.differingCount;
      return { counts: { ...counts, removedCount }, firstDay, lastDay };
    },
  };
}

const idsOf = (records: readonly DiaryRecord[]): readonly string[] => records.map(({ id }) => id);

/**
 * Brings a backup in beside what is here. The sound comes first, where no record speaks of it yet; then records and rows change in one transaction.
 * What is thrown on the way leaves the diary as it was.
 */
export async function bringInBeside(db: Database, backup: Backup, tell: (progress: Progress) => void): Promise<BroughtIn> {
  const before = await takesWithSound(db);
  const { differing, rows, gone, counts } = await newIn(db, backup);
  // Sound that was let go here, or in the diary that comes, does not come back by it.
  const coming = backup.takeIds.filter((takeId) => !before.includes(takeId) && !gone.has(takeId));
  try {
    await putSound(db, { backup, takeIds: coming }, tell);
    await join(db, differing, rows);
    return { mode: 'merge', ...counts, takeCount: coming.length, keptAside: false };
  } catch (error) {
    await Promise.all(coming.map((takeId) => db.delete('flacs', takeId).catch(() => {})));
    throw error;
  }
}

interface NewIn {
  /** Records that are not here, or not as they come. */
  readonly differing: readonly DiaryRecord[];
  /** A row for each take that comes with sound. */
  readonly rows: readonly TakeRow[];
  /** Takes whose sound was let go here or there. */
  readonly gone: ReadonlyMap<string, string>;
  readonly counts: PlanCounts;
}

/** What of a backup is new here: that alone is in memory at once. */
async function newIn(db: Database, backup: Backup): Promise<NewIn> {
  const gone = lettingGo();
  for await (const part of recordsInParts(db)) for (const record of part) gone.look(record);
  const differing: DiaryRecord[] = [];
  const rows: TakeRow[] = [];
  const counts = { addedCount: 0, knownCount: 0, differingCount: 0 };
  const takeIds = new Set(backup.takeIds);
  for await (const some of backup.records()) {
    const present = await recordsAt(db, idsOf(some));
    for (const [k, record] of some.entries()) {
      const here = present[k];
      const isKnown = here !== undefined && sameJson(here, record);
      counts[here === undefined ? 'addedCount' : isKnown ? 'knownCount' : 'differingCount']++;
      if (!isKnown) differing.push(record);
      gone.look(record);
    }
    rows.push(...rowsOf(some, takeIds));
  }
  return { differing, rows, gone: gone.found(), counts: { ...counts, removedCount: 0 } };
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

/** More records than these are outlined anew with all others, in order of making: the latest days are read from the end of the outline. Assumption. */
const MOST_OUTLINED = 200;

/** The one transaction: what is new comes in; of two records with one id the later in order stays. */
const join = (db: Database, coming: readonly DiaryRecord[], rows: readonly TakeRow[]): Promise<void> =>
  inOneTransaction(db, ['records', 'facts', 'takes', 'outlines'], async (transaction) => {
    const facts = transaction.objectStore('facts');
    await standsStill(facts);
    const records = transaction.objectStore('records');
    const present = await Promise.all(coming.map(({ id }) => records.getKey(id)));
    const added = coming.filter((_, k) => present[k] === undefined);
    const others = coming.filter((_, k) => present[k] !== undefined);
    await Promise.all(added.map((record) => records.add(record)));
    for (const record of others) await records.put(mergeRecords([(await records.get(record.id))!], [record])[0]!);
    if (others.length > 0 || added.length > MOST_OUTLINED) await outlineLost({ facts });
    else await outline({ facts, outlines: transaction.objectStore('outlines') }, added);
    const takes = transaction.objectStore('takes');
    for (const row of rows) if ((await takes.getKey(row.takeId)) === undefined) await takes.put(row);
    const last = latestOf(((await facts.get('stamp')) as Made | undefined) ?? null, added);
    if (last) await facts.put(last, 'stamp');
  });

/** A row for each take of a backup that has sound; a record of a version this one does not know gets none, and its sound only travels on. */
export function rowsOf(records: readonly DiaryRecord[], takeIds: ReadonlySet<string>): readonly TakeRow[] {
  return records.flatMap((record) => {
    const take = takeIds.has(record.id) ? upgrade(record) : null;
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
