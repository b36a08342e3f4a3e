/** Where the fields of a ZIP archive stand: entries stored as they are, one disk, no extra fields, every date the first that ZIP knows. */

/** First four bytes of each part, little-endian. @source [APPNOTE] 4.3.7, 4.3.12, 4.3.16 */
export const SIGNATURE = { local: 0x04034b50, central: 0x02014b50, end: 0x06054b50 } as const;

/** Bytes of each part before its name. @source [APPNOTE] 4.3.7, 4.3.12, 4.3.16 */
export const LENGTH = { local: 30, central: 46, end: 22 } as const;

/** What one entry is, wherever it stands. */
export interface EntryFacts {
  readonly name: string;
  readonly byteCount: number;
  readonly crc: number;
}

/** Version of ZIP that a reader needs: 2.0, for folders in names. @source [APPNOTE] 4.4.3.2 */
const VERSION = 20;
/** Names are UTF-8. @source [APPNOTE] 4.4.4, bit 11 */
const FLAGS = 0x0800;
/** 1980-01-01, 00:00:00. @source [APPNOTE] 4.4.6 */
const DATE = 0x0021;

/** The header in front of an entry's bytes. */
export function localHeader(facts: EntryFacts): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(LENGTH.local + facts.name.length);
  const view = new DataView(bytes.buffer);
  view.setUint32(0, SIGNATURE.local, true);
  putFacts(view, 4, facts);
  putName(bytes, LENGTH.local, facts.name);
  return bytes;
}

/** The line about an entry in the directory at the end. */
export function centralHeader(facts: EntryFacts, localAt: number): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(LENGTH.central + facts.name.length);
  const view = new DataView(bytes.buffer);
  view.setUint32(0, SIGNATURE.central, true);
  view.setUint16(4, VERSION, true);
  putFacts(view, 6, facts);
  view.setUint32(42, localAt, true);
  putName(bytes, LENGTH.central, facts.name);
  return bytes;
}

/** The very end of an archive. */
export function endRecord(entryCount: number, directoryAt: number, directoryBytes: number): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(LENGTH.end);
  const view = new DataView(bytes.buffer);
  view.setUint32(0, SIGNATURE.end, true);
  view.setUint16(8, entryCount, true);
  view.setUint16(10, entryCount, true);
  view.setUint32(12, directoryBytes, true);
  view.setUint32(16, directoryAt, true);
  return bytes;
}

/** The fields that both headers share, in the order in which both have them. */
function putFacts(view: DataView, at: number, { name, byteCount, crc }: EntryFacts): void {
  view.setUint16(at, VERSION, true);
  view.setUint16(at + 2, FLAGS, true);
  view.setUint16(at + 8, DATE, true);
  view.setUint32(at + 10, crc, true);
  view.setUint32(at + 14, byteCount, true);
  view.setUint32(at + 18, byteCount, true);
  view.setUint16(at + 22, name.length, true);
}

function putName(bytes: Uint8Array, at: number, name: string): void {
  for (let i = 0; i < name.length; i++) bytes[at + i] = name.charCodeAt(i);
}
