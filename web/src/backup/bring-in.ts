/** A checked backup comes beside the diary: all of it or nothing. In the place of the diary it comes by whole.ts. */
import type { Backup } from '@evenhand/adapters/backup';
import { type DiaryRecord, type KnownRecord, type Made, mergeRecords, observe, sameJson, upgrade } from '@evenhand/core/diary';
import type { Database } from '../store/database.ts';
import { bytesGoneBy, recordsGoneBy } from '../store/goneby.ts';
import { outline, outlineAnew, outlineLost } from '../store/outlines.ts';
import { recordsAt, recordsInParts } from '../store/parts.ts';
import { standsStill } from '../store/standing.ts';
import type { TakeFlac, TakeRow } from '../store/take-rows.ts';
import { inOneTransaction, keptOpen, type Transacting } from '../store/transaction.ts';
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
 * Brings a backup in beside what is here. The sound comes first, where no record speaks of it yet; then records and rows change in one transaction, in
 * which the file is read a part at a time; last the outline is made anew, where much came. What is thrown on the way leaves the diary as it was.
 */
export async function bringInBeside(db: Database, backup: Backup, tell: (progress: Progress) => void): Promise<BroughtIn> {
  const before = await takesWithSound(db);
  const gone = await goneIn(db, backup);
  // Sound that was let go here, or in the diary that comes, does not come back by it.
  const coming = backup.takeIds.filter((takeId) => !before.includes(takeId) && !gone.has(takeId));
  try {
    await putSound(db, { backup, takeIds: coming }, tell);
    const { isOutlined, ...counts } = await join(db, backup, tell);
    if (!isOutlined) await outlineAnew(db, (share) => tell({ part: 'readying', share }));
    return { mode: 'merge', ...counts, takeCount: coming.length, keptAside: false };
  } catch (error) {
    await Promise.all(coming.map((takeId) => db.delete('flacs', takeId).catch(() => {})));
    throw error;
  }
}

/** Takes whose sound was let go here or there. */
async function goneIn(db: Database, backup: Backup): Promise<ReadonlyMap<string, string>> {
  const gone = lettingGo();
  for await (const part of recordsInParts(db)) for (const record of part) gone.look(record);
  for await (const part of backup.records()) for (const record of part) gone.look(record);
  return gone.found();
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
    const some: TakeFlac[] = [];
    // A copy: what was read is good until the next is.
    for (const takeId of takeIds.slice(at, at + TAKES_AT_A_TIME)) some.push({ takeId, flac: Uint8Array.from(await backup.readTake(takeId)) });
    const transaction = db.transaction('flacs', 'readwrite');
    await Promise.all([...some.map((one) => transaction.store.put(one)), transaction.done]);
    bytesGoneBy(some.reduce((sum, { flac }) => sum + flac.length, 0));
  }
}

/** More records than these are outlined anew with all others, in order of making: the latest days are read from the end of the outline. Assumption. */
const MOST_OUTLINED = 200;

type Joining = Transacting<'records' | 'facts' | 'takes' | 'outlines'>;

/** The one transaction: what is new comes in, some at a time; of two records with one id the later in order stays. */
const join = (db: Database, backup: Backup, tell: (progress: Progress) => void): Promise<PlanCounts & { readonly isOutlined: boolean }> =>
  inOneTransaction(db, ['records', 'facts', 'takes', 'outlines'], async (transaction) => {
    const [facts, outlines] = [transaction.objectStore('facts'), transaction.objectStore('outlines')];
    await standsStill(facts);
    const takeIds = new Set(backup.takeIds);
    const counts = { addedCount: 0, knownCount: 0, differingCount: 0, removedCount: 0 };
    let last = ((await facts.get('stamp')) as Made | undefined) ?? null;
    /** Those that are added to the outline; null when it is made anew. */
    let added: DiaryRecord[] | null = [];
    let seen = 0;
    for await (const some of keptOpen(facts, backup.records())) {
      tell({ part: 'entries', share: seen / backup.recordCount });
      seen += some.length;
      const joined = await joinSome(transaction, some);
      counts.addedCount += joined.added.length;
      counts.knownCount += joined.knownCount;
      counts.differingCount += joined.differing.length;
      if (added) added.push(...joined.added);
      if (joined.differing.length > 0 || counts.addedCount > MOST_OUTLINED) added = null;
      await putRows(transaction, rowsOf(some, takeIds));
      last = latestOf(last, joined.added);
    }
    if (added) await outline({ facts, outlines }, added);
    else await outlineLost({ facts });
    if (last) await facts.put(last, 'stamp');
    return { ...counts, isOutlined: added !== null };
  });

interface Joined {
  readonly added: readonly DiaryRecord[];
  readonly differing: readonly DiaryRecord[];
  readonly knownCount: number;
}

async function joinSome(transaction: Joining, some: readonly DiaryRecord[]): Promise<Joined> {
  const records = transaction.objectStore('records');
  const present = await Promise.all(some.map(({ id }) => records.get(id)));
  const added = some.filter((_, k) => present[k] === undefined);
  const differing = some.filter((record, k) => present[k] !== undefined && !sameJson(present[k], record));
  const later = mergeRecords(
    present.filter((record) => record !== undefined && differing.some(({ id }) => id === record.id)) as DiaryRecord[],
    differing,
  );
  await Promise.all([...added, ...later].map((record) => records.put(record)));
  recordsGoneBy(some.length);
  return { added, differing, knownCount: some.length - added.length - differing.length };
}

async function putRows(transaction: Joining, rows: readonly TakeRow[]): Promise<void> {
  const takes = transaction.objectStore('takes');
  const present = await Promise.all(rows.map(({ takeId }) => takes.getKey(takeId)));
  await Promise.all(rows.filter((_, k) => present[k] === undefined).map((row) => takes.put(row)));
}

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
