/** `diary import`: reads a backup into a diary. */
import type { BackupAtOnce } from '@evenhand/adapters/backup';
import type { SaidProblem } from '@evenhand/core/words';
import { entryCountOf, takeCountOf } from '../counts.ts';
import { withBackup } from '../diary-folder/backup-file.ts';
import { isTableName } from '../diary-folder/file-name.ts';
import { makeDiary } from '../diary-folder/folder.ts';
import { type Imported, importBackup } from '../diary-folder/import.ts';
import { asOnlyWriter } from '../diary-folder/lock.ts';
import { type Tried, writingProblem } from '../files.ts';
import type { Outcome } from '../outcome.ts';
import { doubt, refuse } from '../problems.ts';
import type { Call, Verb } from '../verb.ts';
import { inOption, notDone } from './diary-options.ts';
import { importTable } from './diary-table.ts';

export const diaryImport: Verb = {
  name: 'diary import',
  format: 'diary-import/1',
  summary: 'Reads a backup or a table into a diary.',
  about:
    'Reads a backup (.zip) into a diary, or a table (.csv) of entries. A backup is checked to the last bit first; when anything is wrong with it, the diary stays as it is. Of a table, lines that cannot be read are left out and told. The folder is made when it is not there.',
  takesFile: true,
  options: [
    inOption,
    { name: 'merge', kind: 'switch', example: '', about: 'Keep all that is here and add what the backup has beside it. So it is done unless said.' },
    {
      name: 'preview',
      kind: 'switch',
      example: '',
      about: 'Of a table (.csv): say what would come in, line by line where something is wrong, and write nothing.',
    },
    { name: 'whole', kind: 'switch', example: '', about: 'Put the backup in the place of what is here, which is kept in a folder replaced-1.' },
  ],
  example: 'evenhand diary import --in ~/diary backup.zip',
  empty: { mode: null, addedCount: 0, knownCount: 0, differingCount: 0, removedCount: 0, takeCount: 0, replacedIn: null },
  run: (call) => importDiary(call),
};

interface Done extends Imported {
  readonly takeCount: number;
}

async function importDiary(call: Call): Promise<Outcome> {
  const { merge, whole } = call.flag;
  if (merge && whole) return notDone(diaryImport, [refuse('diary-merge-or-whole', {})], 2);
  const folder = call.text.in!;
  const isTable = isTableName(call.files[0]!);
  if (isTable && whole) return notDone(diaryImport, [refuse('diary-table-merges', {})], 2);
  if (!isTable && call.flag.preview) return notDone(diaryImport, [refuse('diary-preview-table', {})], 2);
  if (isTable) return importTable(diaryImport, call);
  const done = await withBackup(call.files[0]!, (backup) => bringIn(folder, backup, whole ? 'whole' : 'merge'));
  return done.problem ? notDone(diaryImport, [done.problem]) : told(done.value);
}

async function bringIn(folder: string, backup: BackupAtOnce, wanted: Imported['mode']): Promise<Tried<Done>> {
  try {
    makeDiary(folder);
    const done = await asOnlyWriter(folder, () => importBackup(folder, backup, wanted));
    return done.problem ? done : { value: { ...done.value, takeCount: backup.takeIds.length } };
  } catch (error) {
    return { problem: writingProblem(folder, error) };
  }
}

function told({ mode, addedCount, knownCount, differingCount, removedCount, takeCount, replacedIn }: Done): Outcome {
  const problems: SaidProblem[] = differingCount > 0 && mode === 'merge' ? [doubt('diary-entries-differ', { entryCount: differingCount })] : [];
  const known = knownCount > 0 ? `, ${knownCount} were here already` : '';
  const first =
    mode === 'whole'
      ? `The diary is now that of the backup: ${entryCountOf(addedCount + knownCount + differingCount)} and ${takeCountOf(takeCount)}.`
      : `${entryCountOf(addedCount)} came in from the backup${known}.`;
  const replaced = replacedIn === null ? [] : [`What was here before is kept in "${replacedIn}".`];
  return {
    exit: 0,
    json: { format: diaryImport.format, mode, addedCount, knownCount, differingCount, removedCount, takeCount, replacedIn, problems },
    lines: [first, ...replaced],
  };
}
