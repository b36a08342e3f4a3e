/** Where a backup is put together: in the browser's own place for files, so that no process has it in memory; in Blobs where there is none, or no room. */
import type { BackupPiece } from '@evenhand/adapters/backup';
import { clearPacked, packedFile } from '../store/packed.ts';

/** A file that lies open for writing, as Workers have it. */
interface OpenFile {
  write(bytes: Uint8Array, options: { readonly at: number }): number;
  flush(): void;
  close(): void;
}

/**
 * Puts the pieces together.
 * @param pieces begins to make them; done again where the first place turns out to have no room.
 */
export async function spool(storeName: string, pieces: () => AsyncIterable<BackupPiece>): Promise<Blob> {
  return (await onDisk(storeName, pieces)) ?? inBlobs(pieces());
}

/** The browser puts Blobs on the disk where they become many. */
export async function inBlobs(pieces: AsyncIterable<BackupPiece>): Promise<Blob> {
  const made: { readonly at: number; readonly blob: Blob }[] = [];
  for await (const { at, bytes } of pieces) made.push({ at, blob: new Blob([bytes as Uint8Array<ArrayBuffer>]) });
  return new Blob(
    made.sort((a, b) => a.at - b.at).map(({ blob }) => blob),
    { type: 'application/zip' },
  );
}

/** @returns null where there is no such place, or it is full. */
async function onDisk(storeName: string, pieces: () => AsyncIterable<BackupPiece>): Promise<Blob | null> {
  const file = await fileFor(storeName).catch(() => null);
  const open = await file?.open().catch(() => null);
  if (!file || !open) return null;
  let isWhole = true;
  try {
    for await (const piece of pieces()) {
      isWhole = written(open, piece);
      if (!isWhole) break;
    }
    isWhole = isWhole && brought(open);
  } finally {
    open.close();
  }
  if (isWhole) return file.handle.getFile();
  await clearPacked(storeName, 0);
  return null;
}

async function fileFor(storeName: string): Promise<{ readonly handle: FileSystemFileHandle; open(): Promise<OpenFile> } | null> {
  await clearPacked(storeName);
  const handle = await packedFile(storeName);
  const { createSyncAccessHandle } = handle as unknown as { readonly createSyncAccessHandle?: () => Promise<OpenFile> };
  return createSyncAccessHandle ? { handle, open: () => createSyncAccessHandle.call(handle) } : null;
}

function written(open: OpenFile, { at, bytes }: BackupPiece): boolean {
  try {
    return open.write(bytes, { at }) === bytes.length;
  } catch {
    return false;
  }
}

function brought(open: OpenFile): boolean {
  try {
    open.flush();
    return true;
  } catch {
    return false;
  }
}
