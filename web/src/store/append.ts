/** Drafts become records inside one transaction, stamped by the clock that lies beside them. */
import { type DiaryRecord, type Made, nextStamp, observe, type RecordDraft, writeRecord } from '@evenhand/core/diary';
import { newId } from './id.ts';
import { endOf, type OutlineTables, outline } from './outlines.ts';
import { standsStill } from './standing.ts';
import type { Identity } from './tables.ts';
import type { Transacting } from './transaction.ts';

/** The stores that a record is written with. */
export const WRITTEN = ['records', 'facts', 'outlines', 'takes', 'chunks'] as const;

export type Writing = Transacting<(typeof WRITTEN)[number]>;

/** Records that were written, and by whom. */
export interface Added {
  readonly identity: Identity;
  readonly records: readonly DiaryRecord[];
}

const outlineTables = (transaction: Writing) => ({ facts: transaction.objectStore('facts'), outlines: transaction.objectStore('outlines') });

/**
 * Writes drafts; tabs and Worker take turns, so no two records of a device get one stamp. Resolves once all was handed to the transaction: whether it is
 * written, the end of that tells.
 */
export async function writeDrafts(transaction: Writing, drafts: readonly RecordDraft[]): Promise<Added> {
  const facts = transaction.objectStore('facts');
  // Asked for at once: each answer that is waited for is a way to another process and back.
  const [[identity, stamp], end] = await Promise.all([factsOf(facts), endOf(outlineTables(transaction)), standsStill(facts)]);
  let last = stamp;
  const records = drafts.map((draft) => {
    last = nextStamp(last, Date.now(), identity.deviceId);
    return writeRecord(draft, { id: newId(), ownerId: identity.ownerId, made: last });
  });
  const handedOver = Promise.all([
    ...records.map((record) => transaction.objectStore('records').add(record)),
    last && facts.put(last, 'stamp'),
    outline(outlineTables(transaction), records, end),
  ]);
  // What cannot be put undoes the whole transaction, and that is told.
  handedOver.catch(() => {});
  return { identity, records };
}

/** Adds records from elsewhere that are not here yet, and remembers their stamps. */
export async function writeForeign(transaction: Writing, records: readonly DiaryRecord[]): Promise<Added> {
  await standsStill(transaction.objectStore('facts'));
  return addMissing(transaction, records);
}

/** The same, into a diary that was replaced too. */
export async function addMissing(transaction: Writing, records: readonly DiaryRecord[]): Promise<Added> {
  const [facts, store] = [transaction.objectStore('facts'), transaction.objectStore('records')];
  const coming = [...new Map(records.map((record) => [record.id, record])).values()];
  const [[identity, stamp], keys] = await Promise.all([factsOf(facts), Promise.all(coming.map(({ id }) => store.getKey(id)))]);
  const added = coming.filter((_, i) => keys[i] === undefined);
  const last = added.reduce((latest, { made }) => observe(latest, made, Date.now()), stamp);
  await Promise.all([...added.map((record) => store.add(record)), last && facts.put(last, 'stamp'), outline(outlineTables(transaction), added)]);
  return { identity, records: added };
}

/** Who writes, and the last stamp. */
async function factsOf(facts: OutlineTables['facts']): Promise<[Identity, Made | null]> {
  const [identity, stamp] = await Promise.all([facts.get('identity'), facts.get('stamp')]);
  return [identity as Identity, (stamp as Made | undefined) ?? null];
}
