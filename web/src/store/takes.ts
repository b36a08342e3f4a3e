/** The sound of takes, stored while it is recorded; used by the Worker. */
import type { KeepingProblem, RecordDraft } from '@evenhand/core/diary';
import type { Reading } from '@evenhand/core/problem';
import { writeDrafts } from './append.ts';
import type { Database } from './database.ts';
import { attempt } from './problems.ts';
import { chunksOf, joinChunks, type StoredTake, type TakeChunk, type TakeMeta, type TakeRow } from './take-rows.ts';

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
}

/** The takes of an opened database. */
export const takesOf = (db: Database): TakeStore => ({
  begin: (meta) => attempt(() => begin(db, meta)),
  add: (chunk) => attempt(() => db.add('chunks', chunk).then(() => true as const)),
  finish: (takeId, record) => attempt(() => finish(db, takeId, record)),
  drop: (takeId) => attempt(() => drop(db, takeId)),
  dropSound: (takeId) => attempt(() => dropSound(db, takeId)),
  row: (takeId) =>
    orNotStored(
      takeId,
      attempt(() => db.get('takes', takeId)),
    ),
  open: () => attempt(async () => (await db.getAll('takes')).filter(({ state }) => state === 'open')),
  chunks: (takeId) => attempt(() => db.getAll('chunks', chunksOf(takeId))),
  sound: (takeId) =>
    orNotStored(
      takeId,
      attempt(() => sound(db, takeId)),
    ),
});

async function begin(db: Database, meta: TakeMeta): Promise<number> {
  const transaction = db.transaction(['takes', 'chunks'], 'readwrite', { durability: 'strict' });
  const known = await transaction.objectStore('takes').get(meta.takeId);
  if (!known) await transaction.objectStore('takes').add({ ...meta, state: 'open' });
  const last = await transaction.objectStore('chunks').openCursor(chunksOf(meta.takeId), 'prev');
  const next = last ? last.value.index + 1 : 0;
  await transaction.done;
  return next;
}

async function finish(db: Database, takeId: string, record: RecordDraft): Promise<true> {
  const transaction = db.transaction(['records', 'facts', 'takes', 'chunks'], 'readwrite', { durability: 'strict' });
  const row = await transaction.objectStore('takes').get(takeId);
  if (row?.state === 'open') {
    await writeDrafts(transaction, [record]);
    await transaction.objectStore('takes').put({ ...row, state: 'closed' });
  }
  await transaction.done;
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

async function sound(db: Database, takeId: string): Promise<StoredTake | undefined> {
  const row = await db.get('takes', takeId);
  const samples = row && (await samplesOf(db, takeId));
  if (!row || !samples) return undefined;
  return { takeId, sampleRateHz: row.sampleRateHz, contextFrame0: row.fromFrame, samples };
}

/** What the store holds decides, never what a record says of it. FLAC's library is fetched only for a take that came in packed. */
async function samplesOf(db: Database, takeId: string): Promise<Float32Array<ArrayBuffer> | undefined> {
  const packed = await db.get('flacs', takeId);
  if (packed) return (await (await import('@evenhand/adapters/flac')).decodeFlac(packed.flac)).samples;
  const chunks = await db.getAll('chunks', chunksOf(takeId));
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
