/** The journals of a diary are tended: held against the database that they are of, filled where they lack something, joined where they are many. */
import { type DiaryRecord, mergeRecords } from '@evenhand/core/diary';
import { inDatabase } from '../asides.ts';
import { replacedIn } from '../standing.ts';
import type { Database, Facts, Journalled } from '../tables.ts';
import { bringBack } from './bringback.ts';
import { entriesOf } from './files.ts';
import { filesIn, type JournalFile, madeFolderOf } from './folder.ts';
import { joinSmall, packRecords } from './joining.ts';
import { recordsIn } from './lines.ts';
import { markReplaced } from './mark.ts';
import type { Tended } from './protocol.ts';

/** Tends the journals of every database of a diary; one page at a time. */
export const tend = (storeName: string): Promise<Tended> =>
  navigator.locks.request(`${storeName}-journal`, async () => {
    let broughtBack = 0;
    for (let at: string | undefined = storeName; at !== undefined; ) {
      at = await inDatabase(at, async (db) => {
        const replaced = await replacedIn(db);
        if (replaced) await markReplaced(db.name, replaced);
        if (!replaced?.letGo) broughtBack += await tendOne(db);
        return replaced?.by;
      });
    }
    return { broughtBack };
  });

/** Equal growth since both held the same is taken for the same; anything else is looked at record by record. */
async function tendOne(db: Database): Promise<number> {
  const folder = await madeFolderOf(db.name);
  const known = ((await db.get('facts', 'journalled')) as Facts['journalled'] | undefined) ?? { recordCount: 0, inJournal: 0 };
  const now = await countedNow(db, folder);
  const isSame = now.recordCount - known.recordCount === now.inJournal - known.inJournal;
  const broughtBack = isSame ? 0 : await compare(db, folder);
  await joinSmall(folder);
  return broughtBack;
}

async function countedNow(db: Database, folder: FileSystemDirectoryHandle): Promise<Journalled> {
  const outlined = (await db.get('facts', 'outlined')) as Facts['outlined'] | undefined;
  let inJournal = 0;
  for (const file of await filesIn(folder)) inJournal += file.recordCount ?? (await recordsOf(file)).length;
  return { recordCount: outlined?.count ?? (await db.count('records')), inJournal };
}

const recordsOf = async (file: JournalFile): Promise<readonly DiaryRecord[]> => recordsIn(await entriesOf(file));

/** What the database lacks is brought back, and what the journal lacks is copied. @returns how many records were brought back. */
async function compare(db: Database, folder: FileSystemDirectoryHandle): Promise<number> {
  const inDatabase = new Set(await db.getAllKeys('records'));
  const inJournal = new Set<string>();
  const lacking: DiaryRecord[] = [];
  for (const file of await filesIn(folder)) {
    for (const record of await recordsOf(file)) {
      inJournal.add(record.id);
      if (!inDatabase.has(record.id)) lacking.push(record);
    }
  }
  const broughtBack = await bringBack(db, mergeRecords(lacking, []));
  await copy(
    db,
    folder,
    [...inDatabase].filter((id) => !inJournal.has(id)),
  );
  await db.put('facts', await countedNow(db, folder), 'journalled');
  return broughtBack;
}

/** Records of a joined file that is written at once. Assumption: packed, some 300 kB. */
const FULL = 2000;
/** Between two of them: whatever the page does meanwhile has the processor. Assumption. */
const PAUSE_MS = 200;

async function copy(db: Database, folder: FileSystemDirectoryHandle, ids: readonly string[]): Promise<void> {
  for (let at = 0; at < ids.length; at += FULL) {
    if (at > 0) await new Promise((resolve) => setTimeout(resolve, PAUSE_MS));
    await packRecords(folder, db, ids.slice(at, at + FULL));
  }
}
