/** The sound of takes, stored while it is recorded; used by the Worker. */
import type { KeepingProblem, RecordDraft } from '@evenhand/core/diary';
import type { Reading } from '@evenhand/core/problem';
import { writeDrafts } from './append.ts';
import type { Followed } from './database.ts';
import { beginJournal, inBoth } from './journal/both.ts';
import type { Journal } from './journal/client.ts';
import { attempt } from './problems.ts';
import { standsStill } from './standing.ts';
import type { Database } from './tables.ts';
import { chunksOf, joinChunks, type StoredTake, type TakeChunk, type TakeFlac, type TakeMeta, type TakeRow } from './take-rows.ts';

/** Everything one can do with stored sound. */
export interface TakeStore {
  /** Says that a take begins; one that is open already goes on. Gives the index of the next chunk. */
  begin(meta: TakeMeta): Promise<Reading<number, KeepingProblem>>;
  add(chunk: TakeChunk): Promise<Reading<true, KeepingProblem>>;
  /** Closes a take and writes its record, both or neither, safe from a power cut once this answers. */
  finish(takeId: string, record: RecordDraft): Promise<Reading<true, KeepingProblem>>;
  /** Removes a take's row and sound. */
  drop(takeId: string): Promise<Reading<true, KeepingProblem>>;
  /** Removes the sound alone. */
  dropSound(takeId: string): Promise<Reading<true, KeepingProblem>>;
  row(takeId: string): Promise<Reading<TakeRow, KeepingProblem>>;
  /** Takes that were begun and not closed, here or in another tab. */
  open(): Promise<Reading<readonly TakeRow[], KeepingProblem>>;
  /** Chunks of a take in order; none for one that is not here. */
  chunks(takeId: string): Promise<Reading<readonly TakeChunk[], KeepingProblem>>;
  sound(takeId: string): Promise<Reading<StoredTake, KeepingProblem>>;
  /** Ids of takes that are over and lie in chunks alone. */
  unpacked(): Promise<Reading<readonly string[], KeepingProblem>>;
  /**
   * Puts FLAC in the place of a take's chunks, both or neither.
   * @param packed.chunkCount chunks that were packed.
   * @returns false when the take was removed, packed or changed meanwhile; then nothing is done.
   */
  pack(takeId: string, packed: Packed): Promise<Reading<boolean, KeepingProblem>>;
}

interface Packed {
  readonly flac: Uint8Array<ArrayBuffer>;
  readonly chunkCount: number;
}

/** The takes of a diary, wherever it stands. @param journal of the records of takes; null where none is kept. */
export function takesOf({ on }: Followed, journal: Journal | null): TakeStore {
  const attempted = <Value>(work: (db: Database) => Promise<Value>) => on((db) => attempt(() => work(db)));
  return {
    async begin(meta) {
      const next = await attempted((db) => begin(db, meta));
      // While it is recorded there is time for that.
      void attempted((db) => beginJournal(db, journal));
      return next;
    },
    add: (chunk) => attempted((db) => add(db, chunk)),
    finish: (takeId, record) => attempted((db) => finish(db, journal, { ...record, id: takeId })),
    drop: (takeId) => attempted((db) => drop(db, takeId)),
    dropSound: (takeId) => attempted((db) => dropSound(db, takeId)),
    row: (takeId) =>
      orNotStored(
        takeId,
        attempted((db) => db.get('takes', takeId)),
      ),
    open: () => attempted(async (db) => (await db.getAll('takes')).filter(({ state }) => state === 'open')),
    chunks: (takeId) => attempted((db) => db.getAll('chunks', chunksOf(takeId))),
    sound: (takeId) =>
      orNotStored(
        takeId,
        attempted((db) => sound(db, takeId)),
      ),
    unpacked: () => attempted(unpacked),
    pack: (takeId, packed) => attempted((db) => pack(db, takeId, packed)),
  };
}

async function begin(db: Database, meta: TakeMeta): Promise<number> {
  const transaction = db.transaction(['takes', 'chunks', 'facts'], 'readwrite', { durability: 'strict' });
  await standsStill(transaction.objectStore('facts'));
  const known = await transaction.objectStore('takes').get(meta.takeId);
  if (!known) await transaction.objectStore('takes').add({ ...meta, state: 'open' });
  const last = await transaction.objectStore('chunks').openCursor(chunksOf(meta.takeId), 'prev');
  const next = last ? last.value.index + 1 : 0;
  await transaction.done;
  return next;
}

async function add(db: Database, chunk: TakeChunk): Promise<true> {
  const transaction = db.transaction(['chunks', 'facts'], 'readwrite');
  await standsStill(transaction.objectStore('facts'));
  await Promise.all([transaction.objectStore('chunks').add(chunk), transaction.done]);
  return true;
}

/** The sound is in the database alone, so it waits for the disk. */
async function finish(db: Database, journal: Journal | null, record: RecordDraft & { readonly id: string }): Promise<true> {
  await inBoth(db, { journal, waitsForDisk: true }, async (transaction) => {
    const row = await transaction.objectStore('takes').get(record.id);
    if (row?.state !== 'open') return null;
    const added = await writeDrafts(transaction, [record]);
    await transaction.objectStore('takes').put({ ...row, state: 'closed' });
    return added;
  });
  return true;
}

async function drop(db: Database, takeId: string): Promise<true> {
  await Promise.all([db.delete('takes', takeId), dropSound(db, takeId)]);
  return true;
}

async function dropSound(db: Database, takeId: string): Promise<true> {
  const transaction = db.transaction(['chunks', 'flacs'], 'readwrite');
  await Promise.all([transaction.objectStore('chunks').delete(chunksOf(takeId)), transaction.objectStore('flacs').delete(takeId), transaction.done]);
  return true;
}

async function unpacked(db: Database): Promise<readonly string[]> {
  const transaction = db.transaction(['takes', 'chunks', 'flacs']);
  const [rows, packed] = await Promise.all([transaction.objectStore('takes').getAll(), transaction.objectStore('flacs').getAllKeys()]);
  const known = new Set(packed);
  const over = rows.filter(({ takeId, state }) => state === 'closed' && !known.has(takeId)).map(({ takeId }) => takeId);
  const first = await Promise.all(over.map((takeId) => transaction.objectStore('chunks').getKey(chunksOf(takeId))));
  return over.filter((_, i) => first[i] !== undefined);
}

async function pack(db: Database, takeId: string, { flac, chunkCount }: Packed): Promise<boolean> {
  const transaction = db.transaction(['takes', 'chunks', 'flacs'], 'readwrite', { durability: 'strict' });
  const [row, known, count] = await Promise.all([
    transaction.objectStore('takes').get(takeId),
    transaction.objectStore('flacs').getKey(takeId),
    transaction.objectStore('chunks').count(chunksOf(takeId)),
  ]);
  const isAsRead = row?.state === 'closed' && known === undefined && count === chunkCount;
  if (isAsRead)
    await Promise.all([transaction.objectStore('flacs').add({ takeId, flac }), transaction.objectStore('chunks').delete(chunksOf(takeId))]);
  await transaction.done;
  return isAsRead;
}

async function sound(db: Database, takeId: string): Promise<StoredTake | undefined> {
  const row = await db.get('takes', takeId);
  const samples = row && (await samplesOf(db, takeId));
  if (!row || !samples) return undefined;
  return { takeId, sampleRateHz: row.sampleRateHz, contextFrame0: row.fromFrame, samples };
}

/** What lies in the store of one take, in either form; read at once, for a take may be packed at any moment. */
export async function storedSound(
  db: Database,
  takeId: string,
): Promise<{ readonly packed: TakeFlac | undefined; readonly chunks: readonly TakeChunk[] }> {
  const transaction = db.transaction(['chunks', 'flacs']);
  const [packed, chunks] = await Promise.all([
    transaction.objectStore('flacs').get(takeId),
    transaction.objectStore('chunks').getAll(chunksOf(takeId)),
  ]);
  return { packed, chunks };
}

/** What the store holds decides, never what a record says of it. FLAC's library is fetched only for a take that is packed. */
async function samplesOf(db: Database, takeId: string): Promise<Float32Array<ArrayBuffer> | undefined> {
  const { packed, chunks } = await storedSound(db, takeId);
  if (packed) return (await (await import('@evenhand/adapters/flac')).decodeFlac(packed.flac)).samples;
  return chunks.length === 0 ? undefined : joinChunks(chunks);
}

async function orNotStored<Value>(
  takeId: string,
  reading: Promise<Reading<Value | undefined, KeepingProblem>>,
): Promise<Reading<Value, KeepingProblem>> {
  const { value, problems } = await reading;
  if (value === null || value === undefined) {
    return { value: null, problems: problems.length > 0 ? problems : [{ code: 'take-not-stored', severity: 'refused', params: { takeId } }] };
  }
  return { value, problems };
}
