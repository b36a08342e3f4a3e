/** The lines of a journal: what was written together, each line with its checksum (docs/formats/journal.md). */
import { crc32 } from '@evenhand/adapters/zip';
import { type DiaryRecord, isRecord } from '@evenhand/core/diary';
import type { Player } from '../player.ts';
import type { Replaced } from '../standing.ts';
import type { Identity } from '../tables.ts';

/** What one line holds. */
export type Entry =
  /** Whose journal it is, the first line of every file that a writer begins. */
  | { readonly journal: 1; readonly identity: Identity }
  /** Records that were written together: all of them, or none. */
  | { readonly records: readonly DiaryRecord[] }
  /** The diary was replaced as a whole; the last such line counts. */
  | { readonly replaced: Replaced }
  /** The list of players of the device, in a file of its own. */
  | { readonly players: readonly Player[] };

/** An entry as a line, its line break included. */
export function lineOf(entry: Entry): Uint8Array<ArrayBuffer> {
  const json = encoder.encode(JSON.stringify(entry));
  const line = new Uint8Array(json.length + SUM_LENGTH + 2);
  encoder.encodeInto(`${sumOf(json)} `, line);
  line.set(json, SUM_LENGTH + 1);
  line[line.length - 1] = LINE_BREAK;
  return line;
}

/**
 * The entries of a journal's bytes. A line that is not as it was written, such as the last one of a writer that was cut off, is left out.
 * What a later version of the program may write is left out too.
 */
export function entriesIn(bytes: Uint8Array): readonly Entry[] {
  const entries: Entry[] = [];
  for (let from = 0; from < bytes.length; ) {
    const end = bytes.indexOf(LINE_BREAK, from);
    if (end === -1) break;
    const entry = entryOf(bytes.subarray(from, end));
    if (entry) entries.push(entry);
    from = end + 1;
  }
  return entries;
}

/** The records of entries, in their order. */
export const recordsIn = (entries: readonly Entry[]): readonly DiaryRecord[] => entries.flatMap((entry) => ('records' in entry ? entry.records : []));

const encoder = new TextEncoder();
const decoder = new TextDecoder();
const LINE_BREAK = 10;
/** Hexadecimal digits of a checksum. */
const SUM_LENGTH = 8;

/** Follows the last line where there is room for more. */
export const SPACE = 32;

/** So many bytes of a file are lines; what follows is room, or a line that was cut off. */
export const lengthOfLines = (bytes: Uint8Array): number => bytes.lastIndexOf(LINE_BREAK) + 1;

/** Put over the checksum of a line that was taken back: it is nobody's, so the line is left out. */
export const TAKEN_BACK: Uint8Array<ArrayBuffer> = encoder.encode('-'.repeat(SUM_LENGTH));

const sumOf = (json: Uint8Array): string => crc32(json).toString(16).padStart(SUM_LENGTH, '0');

function entryOf(line: Uint8Array): Entry | null {
  const json = line.subarray(SUM_LENGTH + 1);
  if (decoder.decode(line.subarray(0, SUM_LENGTH)) !== sumOf(json)) return null;
  const entry: unknown = JSON.parse(decoder.decode(json));
  return isEntry(entry) ? entry : null;
}

const isEntry = (value: unknown): value is Entry =>
  typeof value === 'object' &&
  value !== null &&
  (('records' in value && Array.isArray(value.records) && value.records.every(isRecord)) ||
    ('journal' in value && value.journal === 1 && 'identity' in value) ||
    ('players' in value && Array.isArray(value.players)) ||
    'replaced' in value);
