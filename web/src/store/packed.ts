/** Where packed diaries lie until the browser has brought them to where downloads go. */
import { newId } from './id.ts';

/** A folder in the browser's own place for files. */
const PACKED = 'evenhand-packed';

/** So long a packed diary stays: by then the browser has brought it to where downloads go. Assumption. */
const KEPT_MS = 600_000;

type Folder = FileSystemDirectoryHandle & { keys(): AsyncIterable<string> };

const folder = async (create: boolean): Promise<Folder> =>
  (await (await navigator.storage.getDirectory()).getDirectoryHandle(PACKED, { create })) as Folder;

const startOf = (storeName: string): string => `${storeName} `;

/** A new file for a diary to be packed into. Throws where the browser has no place for files. */
export const packedFile = async (storeName: string): Promise<FileSystemFileHandle> =>
  (await folder(true)).getFileHandle(`${startOf(storeName)}${newId()}.zip`, { create: true });

/** Removes what was packed of a diary. @param keptMs what is younger stays, for it may be on its way out. */
export async function clearPacked(storeName: string, keptMs: number = KEPT_MS): Promise<void> {
  try {
    const there = await folder(false);
    for await (const name of there.keys()) {
      if (!name.startsWith(startOf(storeName))) continue;
      const { lastModified } = await (await there.getFileHandle(name)).getFile();
      if (Date.now() - lastModified >= keptMs) await there.removeEntry(name);
    }
  } catch {
    // There is none, or no such place; one that is still written goes the next time.
  }
}
