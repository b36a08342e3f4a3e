/** What a diary will be after a backup was read into it; nothing is done here. */
import { sameJson } from './canonical.ts';
import { mergeRecords } from './merge.ts';
import type { DiaryRecord } from './record.ts';

/** whole: the backup takes the place of the diary. merge: the diary keeps all it has and gains what it lacks. */
export type ImportMode = 'whole' | 'merge';

/** What an import would do. */
export interface ImportPlan {
  /** The diary afterwards, in order of making. */
  readonly records: readonly DiaryRecord[];
  /** Records of the backup that the diary does not have. */
  readonly added: readonly DiaryRecord[];
  /** Records that both have and that say the same. */
  readonly knownCount: number;
  /** Records that both have and that differ, as in a damaged copy: of each the later in order stays (merge) or the backup's (whole). */
  readonly differingCount: number;
  /** Records of the diary that the backup does not have and that go; 0 when merging. */
  readonly removedCount: number;
}

/** Plans an import. */
export function planImport(present: readonly DiaryRecord[], incoming: readonly DiaryRecord[], mode: ImportMode): ImportPlan {
  const here = new Map(present.map((record) => [record.id, record]));
  const there = mergeRecords(incoming, []);
  const added = there.filter(({ id }) => !here.has(id));
  const both = there.filter(({ id }) => here.has(id));
  const differingCount = both.filter((record) => !sameJson(record, here.get(record.id))).length;
  return {
    records: mode === 'whole' ? there : mergeRecords(present, there),
    added,
    knownCount: both.length - differingCount,
    differingCount,
    removedCount: mode === 'whole' ? here.size - both.length : 0,
  };
}

/**
 * Whose diary a set of records is: the owner of its first record, so that a device on which it was restored whole writes on in that name.
 * null for no records.
 */
export const ownerOf = (records: readonly DiaryRecord[]): string | null => mergeRecords(records, [])[0]?.ownerId ?? null;
