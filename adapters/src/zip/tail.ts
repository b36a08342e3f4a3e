/** Reads an archive from its end, as far as it takes to tell what it is. */
import { crc32 } from './crc.ts';
import { LENGTH, SIGNATURE } from './layout.ts';
import type { ByteSource } from './source.ts';

/** Whether the source ends with the end of an archive. */
export const endsWhole = async (source: ByteSource): Promise<boolean> => (await endOf(source)) !== null;

/**
 * The bytes of the last entry in the directory of an archive, when it has a name and is stored as it is. No other entry is read, however large.
 * @returns null for no archive, another name, an entry that is packed, or one that does not match its CRC.
 */
export async function lastEntry(source: ByteSource, name: string): Promise<Uint8Array | null> {
  const end = await endOf(source);
  if (end === null || end.directoryTo > source.byteCount) return null;
  const line = lastLine(viewOf(await source.read(end.directoryAt, end.directoryTo)));
  if (line?.name !== name) return null;
  const local = viewOf(await stretch(source, line.localAt, LENGTH.local));
  if (local.byteLength < LENGTH.local || local.getUint32(0, true) !== SIGNATURE.local) return null;
  const bytesAt = line.localAt + LENGTH.local + local.getUint16(26, true) + local.getUint16(28, true);
  const bytes = await stretch(source, bytesAt, line.byteCount);
  return crc32(bytes) === line.crc ? bytes : null;
}

const viewOf = (bytes: Uint8Array): DataView => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);

/** Bytes from a place on, fewer at the end of the source. */
const stretch = (source: ByteSource, from: number, length: number): Promise<Uint8Array> =>
  source.read(Math.min(from, source.byteCount), Math.min(from + length, source.byteCount));

async function endOf(source: ByteSource): Promise<{ readonly directoryAt: number; readonly directoryTo: number } | null> {
  if (source.byteCount < LENGTH.end) return null;
  const view = viewOf(await source.read(source.byteCount - LENGTH.end, source.byteCount));
  if (view.getUint32(0, true) !== SIGNATURE.end) return null;
  const directoryAt = view.getUint32(16, true);
  return { directoryAt, directoryTo: directoryAt + view.getUint32(12, true) };
}

/** The last line of a directory. */
function lastLine(view: DataView): { readonly name: string; readonly localAt: number; readonly byteCount: number; readonly crc: number } | null {
  let line = null;
  for (let at = 0; at + LENGTH.central <= view.byteLength; ) {
    if (view.getUint32(at, true) !== SIGNATURE.central) return null;
    const nameLength = view.getUint16(at + 28, true);
    const name = textAt(view, at + LENGTH.central, nameLength);
    const stored = view.getUint16(at + 10, true) === 0;
    line = stored
      ? { name, localAt: view.getUint32(at + 42, true), byteCount: view.getUint32(at + 24, true), crc: view.getUint32(at + 16, true) }
      : null;
    at += LENGTH.central + nameLength + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  return line;
}

function textAt(view: DataView, at: number, length: number): string {
  const end = Math.min(at + length, view.byteLength);
  return String.fromCharCode(...Array.from({ length: Math.max(0, end - at) }, (_, i) => view.getUint8(at + i)));
}
