/** Two diaries become one: every record of both, each once, in one order. */
import { canonicalJson } from './canonical.ts';
import { compareRecords, compareText } from './clock.ts';
import type { DiaryRecord } from './record.ts';

/**
 * The union of two sets of records. It does not matter which is first, how often it is done, or in what order several diaries are joined.
 * Of two different records with one id (a damaged copy) the later in order is kept, on every device the same.
 * @returns by order of making (`compareRecords`); records of unknown kinds and versions as they came.
 */
export function mergeRecords(a: readonly DiaryRecord[], b: readonly DiaryRecord[]): readonly DiaryRecord[] {
  const byId = new Map<string, DiaryRecord>();
  for (const record of [...a, ...b]) {
    const known = byId.get(record.id);
    byId.set(record.id, known === undefined ? record : later(known, record));
  }
  return [...byId.values()].sort(compareRecords);
}

function later(a: DiaryRecord, b: DiaryRecord): DiaryRecord {
  const order = compareRecords(a, b) || compareText(canonicalJson(a), canonicalJson(b));
  return order >= 0 ? a : b;
}
