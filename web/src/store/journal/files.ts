/** What the files of a journal hold. */
import type { JournalFile } from './folder.ts';
import { type Entry, entriesIn } from './lines.ts';

/** What a file of a journal holds; of one that was cut off while it was packed, what can be read. */
export async function entriesOf({ handle, recordCount }: JournalFile): Promise<readonly Entry[]> {
  const file = await handle.getFile();
  const bytes = recordCount === null ? await file.arrayBuffer() : await unpacked(file);
  return entriesIn(new Uint8Array(bytes));
}

async function unpacked(file: File): Promise<ArrayBuffer> {
  const parts: Uint8Array<ArrayBuffer>[] = [];
  try {
    const reader = file.stream().pipeThrough(new DecompressionStream('gzip')).getReader();
    for (let read = await reader.read(); !read.done; read = await reader.read()) parts.push(read.value);
  } catch {
    // Cut off: each line that was unpacked has its own checksum.
  }
  return new Blob(parts).arrayBuffer();
}
