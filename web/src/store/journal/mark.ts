/** The journal of a diary that was replaced says so, for its database may be lost with all others: then the way leads on all the same. */
import { inDatabase } from '../asides.ts';
import { type Replaced, replacedIn } from '../standing.ts';
import { entriesOf } from './files.ts';
import { emptyJournal, filesIn, madeFolderOf, REPLACED_NAME } from './folder.ts';
import { lineOf } from './lines.ts';
import { addTo, openSync } from './syncfile.ts';

/** Marks the journals of all databases of a diary that were replaced. In Workers. */
export async function markAllReplaced(storeName: string): Promise<void> {
  for (let at: string | undefined = storeName; at !== undefined; ) {
    const replaced: Replaced | undefined = await inDatabase(at, replacedIn);
    if (replaced) await markReplaced(at, replaced);
    at = replaced?.by;
  }
}

/** Writes the mark where it is not there, or another; of what was let go the journal keeps nothing else. */
export async function markReplaced(database: string, replaced: Replaced): Promise<void> {
  const folder = await madeFolderOf(database);
  const marked = (await filesIn(folder)).find(({ name }) => name === REPLACED_NAME);
  const [entry] = marked ? await entriesOf(marked) : [];
  if (!entry || !('replaced' in entry) || entry.replaced.by !== replaced.by || entry.replaced.letGo !== replaced.letGo) {
    const file = await openSync(folder, REPLACED_NAME);
    try {
      await file.truncate(0);
      await addTo(file, lineOf({ replaced }), 0);
    } finally {
      await file.close();
    }
  }
  if (replaced.letGo) await emptyJournal(database);
}
