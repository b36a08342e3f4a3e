/** One transaction over some stores of the database: what is written in it is all there in the end, or none of it. */
import type { IDBPTransaction, StoreNames } from 'idb';
import type { Database, Tables } from './database.ts';

/** @param work awaits nothing but the transaction; what it throws undoes what it wrote. */
export async function inOneTransaction<Name extends StoreNames<Tables>, Value>(
  db: Database,
  names: readonly Name[],
  work: (transaction: IDBPTransaction<Tables, Name[], 'readwrite'>) => Promise<Value>,
): Promise<Value> {
  const transaction = db.transaction<Name[], 'readwrite'>([...names], 'readwrite', { durability: 'strict' });
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

function abort(transaction: { abort(): void }): void {
  try {
    transaction.abort();
  } catch {
    // It was aborted already by the error that led here.
  }
}
