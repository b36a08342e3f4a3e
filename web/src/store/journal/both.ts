/** An entry is written twice: in the database, where everybody sees it, and in the journal. It counts once it stands in both (decision 0080). */
import { type Added, WRITTEN, type Writing } from '../append.ts';
import type { Database } from '../tables.ts';
import { inOneTransaction, transacted } from '../transaction.ts';
import type { Journal } from './client.ts';

/** Where the journal of what is written is, and whether the database waits for the disk all the same. */
export interface Keeping {
  /** Null where none is kept. */
  readonly journal: Journal | null;
  readonly waitsForDisk: boolean;
}

/**
 * Does the work in one transaction and adds what it wrote to the journal. One of the two has waited for the disk once this resolves: the journal, or where
 * there is none, the database.
 * @param work gives what it wrote, null for nothing. It awaits nothing but the transaction; what it throws undoes what it wrote.
 */
export async function inBoth(
  db: Database,
  { journal, waitsForDisk }: Keeping,
  work: (transaction: Writing) => Promise<Added | null>,
): Promise<Added['records']> {
  const durability = journal?.isThere && !waitsForDisk ? 'relaxed' : 'strict';
  const added = await transacted(db, { names: WRITTEN, durability }, work);
  const isKept = added && journal?.isThere && (await journal.keep({ ...added, database: db.name }));
  if (added && !isKept && durability === 'relaxed') await bringToDisk(db);
  return added?.records ?? [];
}

/** A transaction that waits for the disk, and with it for all before it. */
const bringToDisk = (db: Database): Promise<unknown> =>
  inOneTransaction(db, ['facts'], async (transaction) => {
    const facts = transaction.objectStore('facts');
    return facts.put((await facts.get('identity'))!, 'identity');
  });
