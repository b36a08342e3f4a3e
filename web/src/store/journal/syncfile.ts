/** A file that is written at once and for good, as browsers give it to Workers alone. */

/** Of FileSystemSyncAccessHandle what is used; some browsers answer with promises. */
export interface SyncFile {
  write(bytes: Uint8Array, options: { readonly at: number }): number;
  truncate(size: number): unknown;
  getSize(): number | Promise<number>;
  /** Resolves when all that was written is on the disk. */
  flush(): unknown;
  close(): unknown;
}

/** Opens a file, made where it is not there, for this Worker alone. Rejects while anybody else has it. */
export async function openSync(folder: FileSystemDirectoryHandle, name: string): Promise<SyncFile> {
  const file = await folder.getFileHandle(name, { create: true });
  // Only Workers know this method, and this file is checked as a page's too.
  return (file as unknown as { createSyncAccessHandle(): Promise<SyncFile> }).createSyncAccessHandle();
}

/** Adds bytes at a place of a file and waits until they are on the disk. Throws when there is no room; then nothing of them is left. */
export async function addTo(file: SyncFile, bytes: Uint8Array, at: number): Promise<void> {
  try {
    if (file.write(bytes, { at }) < bytes.length) throw new DOMException('not all of it was written', 'QuotaExceededError');
    await file.flush();
  } catch (error) {
    await file.truncate(at);
    throw error;
  }
}
