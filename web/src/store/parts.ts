/** The records of a diary, a part at a time, so that a long one does not hold up whoever else waits. */
import type { DiaryRecord } from '@evenhand/core/diary';
import type { Database } from './database.ts';

/** Records that are read at a time: so many take a few hundredths of a second. */
const AT_A_TIME = 500;

/** By rising id; none of an empty diary. What is written meanwhile may be among them or not. */
export async function* recordsInParts(db: Database): AsyncGenerator<readonly DiaryRecord[]> {
  for (let after: string | null = null; ; ) {
    const part: DiaryRecord[] = await db.getAll('records', after === null ? null : IDBKeyRange.lowerBound(after, true), AT_A_TIME);
    if (part.length > 0) yield part;
    if (part.length < AT_A_TIME) return;
    after = part.at(-1)!.id;
  }
}
