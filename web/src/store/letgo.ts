/** How much sound there is, and sound that goes: one transaction, all of it or nothing. */

import { bytesGoneBy } from './goneby.ts';
import { standsStill } from './standing.ts';
import type { Database } from './tables.ts';
import { chunksOf } from './take-rows.ts';

/** The sound of a take as it lies in the store. */
export interface StoredSound {
  readonly takeId: string;
  readonly byteCount: number;
}

/** Sound that is packed never changes: each is read once. */
const packedSizes = new WeakMap<Database, Map<string, number>>();

async function packedSize(db: Database, takeId: string): Promise<number> {
  const sizes = packedSizes.get(db) ?? new Map<string, number>();
  packedSizes.set(db, sizes);
  const size = sizes.get(takeId) ?? (await db.get('flacs', takeId))?.flac.length ?? 0;
  if (!sizes.has(takeId)) bytesGoneBy(size);
  sizes.set(takeId, size);
  return size;
}

/** Takes that are over and have sound, by rising id, with its size. Read one after the other, so that no more than one is in memory. */
export async function soundSizes(db: Database): Promise<readonly StoredSound[]> {
  const sizes = new Map<string, number>();
  const open = new Set((await db.getAll('takes')).filter(({ state }) => state === 'open').map(({ takeId }) => takeId));
  const add = (takeId: string, byteCount: number) => open.has(takeId) || sizes.set(takeId, (sizes.get(takeId) ?? 0) + byteCount);
  for (const takeId of await db.getAllKeys('flacs')) add(takeId, await packedSize(db, takeId));
  for (let cursor = await db.transaction('chunks').store.openCursor(); cursor; cursor = await cursor.continue())
    add(cursor.value.takeId, cursor.value.samples.byteLength);
  return [...sizes].map(([takeId, byteCount]) => ({ takeId, byteCount })).sort((a, b) => (a.takeId < b.takeId ? -1 : 1));
}

/** Removes the sound of takes; their rows and records stay. */
export async function freeSound(db: Database, takeIds: readonly string[]): Promise<true> {
  const transaction = db.transaction(['chunks', 'flacs', 'facts'], 'readwrite', { durability: 'strict' });
  await standsStill(transaction.objectStore('facts'));
  const [chunks, flacs] = [transaction.objectStore('chunks'), transaction.objectStore('flacs')];
  await Promise.all([...takeIds.flatMap((takeId) => [chunks.delete(chunksOf(takeId)), flacs.delete(takeId)]), transaction.done]);
  return true;
}
