/** Drafts become records of a diary in a folder. */
import { type DiaryRecord, type Made, nextStamp, observe, type RecordDraft, writeRecord } from '@evenhand/core/diary';
import type { Tried } from '../files.ts';
import { appendRecords, writerOf } from './folder.ts';
import { newId } from './ids.ts';

/** Writes drafts behind the records that are there, each later than all of them. They are on the disk when this returns. To be called by the only writer. */
export function writeDrafts(folder: string, present: readonly DiaryRecord[], drafts: readonly RecordDraft[]): Tried<readonly DiaryRecord[]> {
  const writer = writerOf(folder, { deviceId: newId(), ownerId: newId() });
  if (writer.problem) return writer;
  const now = Date.now();
  let last = present.reduce<Made | null>((latest, { made }) => observe(latest, made, now), null);
  const records = drafts.map((draft) => {
    last = nextStamp(last, now, writer.value.deviceId);
    return writeRecord(draft, { id: newId(), ownerId: writer.value.ownerId, made: last });
  });
  appendRecords(folder, records);
  return { value: records };
}
