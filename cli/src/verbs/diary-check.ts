/** `diary check`: whether a backup is, to the last bit, what was written. */
import { fold } from '@evenhand/core/diary';
import { sizeName } from '@evenhand/core/words';
import { entryCountOf, takeCountOf } from '../counts.ts';
import { withBackup } from '../diary-folder/backup-file.ts';
import type { Outcome } from '../outcome.ts';
import type { Call, Verb } from '../verb.ts';
import { notDone } from './diary-options.ts';

export const diaryCheck: Verb = {
  name: 'diary check',
  format: 'diary-check/1',
  summary: 'Says whether a backup is whole.',
  about: 'Says whether a backup is whole: it is built anew from its contents and compared byte by byte, so that no changed bit passes.',
  takesFile: true,
  options: [],
  example: 'evenhand diary check backup.zip',
  empty: { whole: false, recordCount: 0, takeCount: 0, byteCount: 0, firstDay: null, lastDay: null },
  run: (call) => check(call),
};

async function check(call: Call): Promise<Outcome> {
  const read = await withBackup(call.files[0]!, async (backup) => ({ value: backup }));
  if (read.problem) return notDone(diaryCheck, [read.problem]);
  const { records, takeIds, byteCount } = read.value;
  const days = fold(records).days.map(({ day }) => day);
  const [firstDay, lastDay] = [days.at(-1) ?? null, days[0] ?? null];
  const counts = { recordCount: records.length, takeCount: takeIds.length, byteCount };
  const span = firstDay === null ? '' : ` from ${firstDay} to ${lastDay}`;
  return {
    exit: 0,
    json: { format: diaryCheck.format, whole: true, ...counts, firstDay, lastDay, problems: [] },
    lines: [`This backup is whole: ${entryCountOf(records.length)}${span}, ${takeCountOf(takeIds.length)}, ${sizeName(byteCount)}.`],
  };
}
