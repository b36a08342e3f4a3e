/** The Worker that packs and unpacks backups, so that the page goes on answering. */
import { type Backup, readBackup, ZipFullError } from '@evenhand/adapters/backup';
import { type BackupProblem, type ImportMode, type KeepingProblem, refuseBackup } from '@evenhand/core/diary';
import type { Reading } from '@evenhand/core/problem';
import { inDatabase } from '../store/asides.ts';
import { type Database, openDatabase, openOne } from '../store/database.ts';
import { markAllReplaced } from '../store/journal/mark.ts';
import { noticesOf } from '../store/notice.ts';
import { failed } from '../store/problems.ts';
import { bringInBeside, type Counted, countingAgainst } from './bring-in.ts';
import { fileSource } from './filesource.ts';
import { backupOf, packDiary } from './pack.ts';
import type {
  BackupRequestName,
  BackupRequests,
  BroughtIn,
  CheckedBackup,
  FromBackupWorker,
  PackedDiary,
  PlanCounts,
  Progress,
  ToBackupWorker,
} from './protocol.ts';
import { bringInWhole } from './whole.ts';

const scope = self as unknown as DedicatedWorkerGlobalScope;
const say = (message: FromBackupWorker): void => scope.postMessage(message);
const tell = (progress: Progress): void => say({ type: 'progress', progress });

let storeName = '';
/** What may be brought in. */
interface Checked {
  readonly backup: Backup;
  readonly counts: PlanCounts;
  /** Called when it is not wanted any more. */
  readonly close: () => void;
}

let checked: Checked | null = null;

type Looked = Reading<CheckedBackup, BackupProblem | KeepingProblem>;
type Answer = Reading<BackupRequests[BackupRequestName]['answer'], BackupProblem | KeepingProblem>;

/** The diary is opened for each request: a restore puts it elsewhere. */
async function answer(request: Exclude<ToBackupWorker, { type: 'start' }>): Promise<Answer> {
  const { value: db, problems } = await openDatabase(storeName, { onLost: () => {} });
  if (!db) return { value: null, problems };
  try {
    return await answerWith(db, request);
  } finally {
    db.close();
  }
}

async function answerWith(db: Database, request: Exclude<ToBackupWorker, { type: 'start' }>): Promise<Answer> {
  switch (request.type) {
    case 'save':
      return { value: await save(db), problems: [] };
    case 'saveAside':
      return { value: await inDatabase(request.ask.database, (aside) => packDiary(aside, 'aside', tell)), problems: [] };
    case 'check':
      return checkFile(db, request.ask.file);
    case 'checkAside':
      return checkAside(db, request.ask.database);
    case 'bringIn':
      return { value: await bring(db, request.ask.mode), problems: [] };
  }
}

async function save(db: Database): Promise<PackedDiary> {
  const packed = await packDiary(db, 'sound', tell);
  await db.put('facts', Date.now(), 'savedAtMs');
  return packed;
}

async function checkFile(db: Database, file: Blob): Promise<Looked> {
  forget();
  const counting = countingAgainst(db);
  const { value: backup, problems } = await readBackup(
    fileSource(file, (share) => tell({ part: 'reading', share })),
    counting.look,
  );
  return backup ? told({ backup, close: () => {} }, await counting.counted()) : { value: null, problems };
}

async function checkAside(db: Database, database: string): Promise<Looked> {
  forget();
  const { value: aside, problems } = await openOne(database, { onLost: () => {} });
  if (!aside) return { value: null, problems };
  const backup = await backupOf(aside);
  const counting = countingAgainst(db);
  for await (const some of backup.records()) await counting.look(some);
  return told({ backup, close: () => aside.close() }, await counting.counted());
}

/** What was checked before is not wanted any more. */
function forget(): void {
  checked?.close();
  checked = null;
}

/** Remembers what was checked, and tells what bringing it in would do. */
function told({ backup, close }: Pick<Checked, 'backup' | 'close'>, { counts, firstDay, lastDay }: Counted): Looked {
  checked = { backup, counts, close };
  const plans: CheckedBackup['plans'] = { whole: counts, merge: { ...counts, removedCount: 0 } };
  return { value: { recordCount: backup.recordCount, takeCount: backup.takeIds.length, firstDay, lastDay, plans }, problems: [] };
}

async function bring(db: Database, mode: ImportMode): Promise<BroughtIn> {
  const { backup, counts } = checked!;
  const done = mode === 'whole' ? await bringInWhole(db, { storeName, backup, counts }, tell) : await bringInBeside(db, backup, tell);
  if (mode === 'whole') await markAllReplaced(storeName).catch(() => {});
  const notices = noticesOf(storeName);
  notices.tell();
  notices.close();
  return done;
}

/** What is thrown on the way becomes what can be said; errors of ours too, for there is nobody else to tell. */
function problemOf(error: unknown): BackupProblem | KeepingProblem {
  if (error instanceof ZipFullError) return refuseBackup('backup-too-large', {});
  if (error instanceof DOMException && ['NotReadableError', 'NotFoundError'].includes(error.name)) return refuseBackup('backup-unreadable', {});
  return failed(error);
}

scope.onmessage = ({ data }: MessageEvent<ToBackupWorker>) => {
  if (data.type === 'start') {
    storeName = data.storeName;
    return;
  }
  void answer(data)
    .catch((error: unknown): Answer => ({ value: null, problems: [problemOf(error)] }))
    .then((reading) => say({ type: 'answer', reading }));
};
