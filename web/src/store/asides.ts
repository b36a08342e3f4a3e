/** Diaries that a whole restore took the place of: where they lie, and how they go for good. */
import { openOne } from './database.ts';
import { emptyJournal, journalNames, removeJournal } from './journal/folder.ts';
import { clearPacked } from './packed.ts';
import { isLater, laterNames, type Replaced, replacedIn } from './standing.ts';
import type { Database } from './tables.ts';
import type { Aside } from './take-rows.ts';

const QUIETLY = { onLost: () => {} };

/** One restore of a diary at a time, whatever tab it is in. */
export const restoring = <Value>(storeName: string, work: () => Promise<Value>): Promise<Value> => navigator.locks.request(lockOf(storeName), work);

const lockOf = (storeName: string): string => `${storeName}-restoring`;

/** The diaries that are kept aside of a diary, the latest first. */
export async function asidesOf(storeName: string): Promise<readonly Aside[]> {
  const asides: Aside[] = [];
  await alongside(storeName, async (db) => {
    const replaced = await replacedIn(db);
    for (const { atMs, recordCount, takeCount, id, file } of await db.getAll('asides')) {
      asides.push({ atMs, recordCount, takeCount, database: db.name, row: { id, file } });
    }
    if (replaced && !replaced.letGo) {
      const { atMs, recordCount, takeCount } = replaced;
      asides.push({ atMs, recordCount, takeCount, database: db.name, row: null });
    }
  });
  // While nothing is restored, what one left that was cut off takes no more room.
  await navigator.locks.request(lockOf(storeName), { ifAvailable: true }, (lock) => (lock ? clearLeft(storeName) : undefined));
  return asides.sort((a, b) => b.atMs - a.atMs);
}

/** Removes what is kept aside. Of its database the mark is left that leads on to the present diary. */
export async function letGo({ database, row }: Pick<Aside, 'database' | 'row'>): Promise<void> {
  await inDatabase(database, async (db) => {
    if (row) return db.delete('asides', row.id);
    const transaction = db.transaction(['records', 'facts', 'takes', 'chunks', 'flacs', 'outlines'], 'readwrite');
    const replaced = (await transaction.objectStore('facts').get('replaced')) as Replaced | undefined;
    // Never a diary that stands.
    if (replaced) {
      await transaction.objectStore('facts').put({ ...replaced, letGo: true }, 'replaced');
      for (const name of ['records', 'takes', 'chunks', 'flacs', 'outlines'] as const) await transaction.objectStore(name).clear();
    }
    await transaction.done;
    if (replaced) await emptyJournal(database);
  });
}

/** Removes what a restore left that was cut off: databases that no diary leads to. Only while nothing is restored. */
export async function clearLeft(storeName: string): Promise<void> {
  const inUse = new Set<string>();
  await alongside(storeName, async (db) => void inUse.add(db.name));
  for (const name of await laterNames(storeName)) if (!inUse.has(name)) await removed(name);
}

/** Removes a diary with everything that is kept aside of it. */
export async function removeDiary(storeName: string): Promise<void> {
  await clearPacked(storeName, 0);
  const left = (await journalNames()).filter((name) => isLater(storeName, name));
  for (const name of new Set([...(await laterNames(storeName)), ...left, storeName])) await removed(name);
}

/** Resolves when the database is gone, or cannot go while somebody has it open. Its journal goes first: cut off between, there is nothing it could be filled from. */
async function removed(name: string): Promise<void> {
  await removeJournal(name);
  await new Promise<void>((resolve, reject) => {
    const request = indexedDB.deleteDatabase(name);
    request.onsuccess = () => resolve();
    request.onblocked = () => resolve();
    request.onerror = () => reject(request.error);
  });
}

/** Looks at every database of a diary, from the first to the one that stands. */
async function alongside(storeName: string, look: (db: Database) => Promise<void>): Promise<void> {
  for (let at: string | undefined = storeName; at !== undefined; ) {
    at = await inDatabase(at, async (db) => {
      await look(db);
      return (await replacedIn(db))?.by;
    });
  }
}

/** Opens one database, as it is, for a moment. Throws what it is refused with. */
export async function inDatabase<Value>(name: string, work: (db: Database) => Promise<Value>): Promise<Value> {
  const { value: db, problems } = await openOne(name, QUIETLY);
  if (!db) throw new DOMException(problems[0]?.code ?? 'closed', 'InvalidStateError');
  try {
    return await work(db);
  } finally {
    db.close();
  }
}
