/** An entry is written twice: in the database, where everybody sees it, and in the journal. It counts once it stands in both (decisions 0080, 0087). */
import { type Added, WRITTEN, type Writing } from '../append.ts';
import type { Database, Identity } from '../tables.ts';
import { inOneTransaction, transacted } from '../transaction.ts';
import type { Journal, KeptLine } from './client.ts';

/** Where the journal of what is written is, and whether the database waits for the disk all the same. */
export interface Keeping {
  /** Null where none is kept. */
  readonly journal: Journal | null;
  readonly waitsForDisk: boolean;
}

/**
 * Does the work in one transaction and adds what it writes to the journal, both at the same time. One of the two has waited for the disk once this resolves:
 * the journal, or where there is none, the database. A transaction that fails takes the line of the journal back before this rejects.
 * @param work hands all that is to be written to the transaction and gives it, null for nothing. It awaits nothing but the transaction; what it throws undoes
 * what it wrote.
 */
export async function inBoth(
  db: Database,
  { journal, waitsForDisk }: Keeping,
  work: (transaction: Writing) => Promise<Added | null>,
): Promise<Added['records']> {
  const durability = journal?.isThere && !waitsForDisk ? 'relaxed' : 'strict';
  let line = null as KeptLine | null;
  try {
    const added = await transacted(db, { names: WRITTEN, durability }, async (transaction) => {
      const writing = await work(transaction);
      // Nothing more is asked of it: what was handed over need not come back before it ends.
      transaction.commit();
      if (writing && journal?.isThere) line = journal.keep({ ...writing, database: db.name });
      return writing;
    });
    const isKept = await line?.isKept;
    if (added && !isKept && durability === 'relaxed') await bringToDisk(db);
    return added?.records ?? [];
  } catch (error) {
    await line?.takeBack();
    throw error;
  }
}

/** Makes the file of the journal ahead, for there is time for it now. */
export async function beginJournal(db: Database, journal: Journal | null): Promise<void> {
  if (journal?.isThere && !journal.isBegun(db.name)) journal.start({ database: db.name, identity: (await db.get('facts', 'identity')) as Identity });
}

/** A transaction that waits for the disk, and with it for all before it. */
const bringToDisk = (db: Database): Promise<unknown> =>
  inOneTransaction(db, ['facts'], async (transaction) => {
    const facts = transaction.objectStore('facts');
    return facts.put((await facts.get('identity'))!, 'identity');
  });
