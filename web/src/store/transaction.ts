/** One transaction over some stores of the database: what is written in it is all there in the end, or none of it. */
import type { IDBPTransaction, StoreNames } from 'idb';
import type { Database, Tables } from './tables.ts';

/** A transaction that writes into those stores. */
export type Transacting<Name extends StoreNames<Tables>> = IDBPTransaction<Tables, Name[], 'readwrite'>;

/**
 * A transaction that is safe from a power cut once this resolves.
 * @param work awaits nothing but the transaction; what it throws undoes what it wrote.
 */
export const inOneTransaction = <Name extends StoreNames<Tables>, Value>(
  db: Database,
  names: readonly Name[],
  work: (transaction: Transacting<Name>) => Promise<Value>,
): Promise<Value> => transacted(db, { names, durability: 'strict' }, work);

/** @param how.durability relaxed: everybody sees what was written once this resolves, and the browser brings it to the disk in its own time. */
export async function transacted<Name extends StoreNames<Tables>, Value>(
  db: Database,
  how: { readonly names: readonly Name[]; readonly durability: 'strict' | 'relaxed' },
  work: (transaction: Transacting<Name>) => Promise<Value>,
): Promise<Value> {
  const transaction = db.transaction<Name[], 'readwrite'>([...how.names], 'readwrite', { durability: how.durability });
  try {
    const value = await work(transaction);
    await transaction.done;
    return value;
  } catch (error) {
    transaction.done.catch(() => {});
    abort(transaction);
    throw error;
  }
}

/**
 * What comes from elsewhere, some at a time, while a transaction stays open: it would end where nothing is asked of it.
 * @param facts of the transaction.
 * @param parts what is thrown by them goes on.
 */
export async function* keptOpen<Part>(facts: { getKey(name: 'identity'): Promise<unknown> }, parts: AsyncIterable<Part>): AsyncGenerator<Part, void> {
  const coming = parts[Symbol.asyncIterator]();
  for (;;) {
    const next = coming.next();
    let isThere = false;
    const tell = (): void => {
      isThere = true;
    };
    next.then(tell, tell);
    while (!isThere) await facts.getKey('identity');
    const { done, value } = await next;
    if (done) return;
    yield value;
  }
}

function abort(transaction: { abort(): void }): void {
  try {
    transaction.abort();
  } catch {
    // It was aborted already by the error that led here.
  }
}
