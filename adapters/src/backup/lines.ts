/** The records of a backup as lines, some at a time, so that ten years need no more memory than one. */
import { type BackupEntry, compareRecords, type DiaryRecord, mergeRecords, RECORDS_ENTRY, readLines, writeLine } from '@evenhand/core/diary';
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import { joined } from '../joined.ts';
import { textOf } from '../utf8.ts';
import { type ByteSource, crc32, type EntryFacts, type PlacedEntry } from '../zip/index.ts';

/** Records in order of making, each once, some at a time. */
export type RecordParts = Iterable<readonly DiaryRecord[]> | AsyncIterable<readonly DiaryRecord[]>;

/** Records that are written, and bytes of lines that are read, at a time: few enough to be cleared away cheaply. @tuned bench/diary */
const RECORDS_AT_A_TIME = 100;
const BYTES_AT_A_TIME = 200_000;

/** Records that are in memory anyway, in whatever order, as parts. */
export function* partsOf(records: readonly DiaryRecord[]): Generator<readonly DiaryRecord[], void> {
  const inOrder = mergeRecords(records, []);
  for (let at = 0; at < inOrder.length; at += RECORDS_AT_A_TIME) yield inOrder.slice(at, at + RECORDS_AT_A_TIME);
}

/** Looks at records one after another. */
export interface OrderKept {
  /** Of the records so far. */
  readonly ids: ReadonlySet<string>;
  /** Whether records come in order of making, after all before them, and each for the first time. */
  follow(records: readonly DiaryRecord[]): boolean;
}

export function orderKept(): OrderKept {
  const ids = new Set<string>();
  let last: Pick<DiaryRecord, 'made' | 'id'> | null = null;
  return {
    ids,
    follow: (records) =>
      records.every((record) => {
        const { id, made } = record;
        const follows = !ids.has(id) && (last === null || compareRecords(last, record) < 0);
        ids.add(id);
        last = { id, made };
        return follows;
      }),
  };
}

/** What the archive and the manifest say of an entry. */
export type SummedEntry = EntryFacts & BackupEntry;

/** The checksums of an entry that comes a part at a time. */
export function summing(): { add(bytes: Uint8Array): void; sum(name: string): SummedEntry } {
  const hash = sha256.create();
  let [crc, byteCount] = [0, 0];
  return {
    add(bytes) {
      hash.update(bytes);
      crc = crc32(bytes, crc);
      byteCount += bytes.length;
    },
    sum: (name) => ({ name, byteCount, crc, sha256: bytesToHex(hash.clone().digest()) }),
  };
}

/** The bytes of an entry, whole lines at a time; after the last line's end may come what has none. */
export async function* linesIn(source: ByteSource, { bytesAt, endAt }: PlacedEntry): AsyncGenerator<Uint8Array, void> {
  let rest: readonly Uint8Array[] = [];
  for (let at = bytesAt; at < endAt; at += BYTES_AT_A_TIME) {
    const bytes = await source.read(at, Math.min(endAt, at + BYTES_AT_A_TIME));
    const end = bytes.lastIndexOf(LINE_FEED) + 1;
    if (end > 0) yield joined([...rest, bytes.subarray(0, end)]);
    // A copy: what was read may be a window on more, which would be kept with it.
    const left = bytes.slice(end);
    rest = end > 0 ? [left] : [...rest, left];
  }
  const left = joined(rest);
  if (left.length > 0) yield left;
}

const LINE_FEED = 10;

/** What the lines of a backup hold. */
export interface ReadRecords {
  readonly summed: SummedEntry;
  /** Ids of the records; null when this program would write the lines otherwise, or cannot. */
  readonly ids: ReadonlySet<string> | null;
}

/** Reads the records' entry once. @param look is shown the records as they come, before all of them are known to be good. */
export async function readRecords(
  source: ByteSource,
  entry: PlacedEntry,
  look: (some: readonly DiaryRecord[]) => Promise<void>,
): Promise<ReadRecords> {
  const sums = summing();
  const order = orderKept();
  let isGood = true;
  for await (const bytes of linesIn(source, entry)) {
    sums.add(bytes);
    const some: readonly DiaryRecord[] | null = isGood ? canonicalRecords(bytes) : null;
    isGood = some !== null && order.follow(some);
    if (some && isGood) await look(some);
  }
  return { summed: sums.sum(RECORDS_ENTRY), ids: isGood ? order.ids : null };
}

/** The records of canonical lines; null when this program would write them otherwise, or cannot. */
function canonicalRecords(bytes: Uint8Array): readonly DiaryRecord[] | null {
  try {
    const text = textOf(bytes);
    const records = text === null ? [] : (readLines(text).value ?? []);
    return records.map(writeLine).join('') === text ? records : null;
  } catch (error) {
    // Lists within lists, deeper than the stack.
    if (error instanceof RangeError) return null;
    throw error;
  }
}
