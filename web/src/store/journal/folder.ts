/** Where the journals of a database lie: a folder for each, in the files that the browser keeps for this site alone. */

/** Everything of this program lies in it. */
const ROOT = 'journals';

/** Says in a line of its own that the diary was replaced as a whole. */
export const REPLACED_NAME = 'replaced.lines';
/** A file that one writer adds to, or added to while its page was open. */
const BEGUN = /^[0-9a-f]{32}\.lines$/;
/** Files joined into one and packed: its name tells how many records are in it. */
const JOINED = /^[0-9a-f]{32}-(\d+)\.lines\.gz$/;

export interface JournalFile {
  readonly name: string;
  readonly handle: FileSystemFileHandle;
  /** Of a joined file, without a look inside; null of others. */
  readonly recordCount: number | null;
}

/** The folder of a database; null when there is none, or the browser has no such files. */
export async function folderOf(database: string): Promise<FileSystemDirectoryHandle | null> {
  try {
    return await (await root(false)).getDirectoryHandle(nameOf(database));
  } catch {
    return null;
  }
}

/** The folder of a database, made where it is not there. Throws where the browser has no such files. */
export const madeFolderOf = async (database: string): Promise<FileSystemDirectoryHandle> =>
  (await root(true)).getDirectoryHandle(nameOf(database), { create: true });

/** The files of a journal, in no order. */
export async function filesIn(folder: FileSystemDirectoryHandle): Promise<readonly JournalFile[]> {
  const files: JournalFile[] = [];
  for await (const handle of folder.values()) {
    if (handle.kind !== 'file') continue;
    const joined = JOINED.exec(handle.name);
    if (joined) files.push({ name: handle.name, handle, recordCount: Number(joined[1]) });
    else if (handle.name === REPLACED_NAME || BEGUN.test(handle.name)) files.push({ name: handle.name, handle, recordCount: null });
  }
  return files;
}

/** A page that was closed just now lets go of its file within this. Assumption. */
const LET_GO_MS = [50, 100, 200, 400];

/** Removes the journal of a database; what some page still writes to is left. */
export async function removeJournal(database: string): Promise<void> {
  for (const waitMs of LET_GO_MS) {
    await emptyJournal(database);
    const folder = await folderOf(database);
    if (!folder) return;
    await folder.removeEntry(REPLACED_NAME).catch(() => {});
    await removeFolder(database);
    if ((await folderOf(database)) === null) return;
    await new Promise((resolve) => setTimeout(resolve, waitMs));
  }
}

const removeFolder = (database: string): Promise<void> =>
  root(false)
    .then((all) => all.removeEntry(nameOf(database)))
    .catch(() => {});

/** Removes all records of a journal, but not that it was replaced. */
export async function emptyJournal(database: string): Promise<void> {
  const folder = await folderOf(database);
  if (!folder) return;
  for (const { name } of await filesIn(folder)) if (name !== REPLACED_NAME) await folder.removeEntry(name).catch(() => {});
}

/** Names of the databases that have a journal; of some, perhaps, nothing else is left. */
export async function journalNames(): Promise<readonly string[]> {
  const names: string[] = [];
  try {
    for await (const name of (await root(false)).keys()) names.push(name.replaceAll('_', '~'));
  } catch {
    // There is none, or the browser has no such files.
  }
  return names;
}

export const begunName = (id: string): string => `${id}.lines`;
export const joinedName = (id: string, recordCount: number): string => `${id}-${recordCount}.lines.gz`;

/** A name that any file system takes. No name of a database has the letter that stands for the other. */
const nameOf = (database: string): string => database.replaceAll('~', '_');

const root = async (create: boolean): Promise<FileSystemDirectoryHandle> =>
  (await navigator.storage.getDirectory()).getDirectoryHandle(ROOT, { create });
