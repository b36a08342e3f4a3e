/** A backup as a file: opened, checked, and closed again. */
import { type BackupAtOnce, readBackupAtOnce } from '@evenhand/adapters/backup';
import { sayProblem } from '@evenhand/core/words';
import type { Tried } from '../files.ts';
import { refuse } from '../problems.ts';
import { isTableName } from './file-name.ts';
import { openSource } from './file-source.ts';

/** Opens a file, reads and checks it as a backup, and does something with it while it is open. */
export async function withBackup<Value>(file: string, work: (backup: BackupAtOnce) => Promise<Tried<Value>>): Promise<Tried<Value>> {
  if (isTableName(file)) return { problem: refuse('diary-table-no-check', { file }) };
  const source = openSource(file);
  if (source.problem) return source;
  try {
    const { value, problems } = await readBackupAtOnce(source.value);
    return value ? await work(value) : { problem: sayProblem(problems[0]!) };
  } finally {
    source.value.close();
  }
}
