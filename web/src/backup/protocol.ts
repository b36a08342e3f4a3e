/** Everything the page and the backup's Worker say to each other. One Worker serves one diary, one request at a time. */
import type { ImportMode, ImportPlan } from '@evenhand/core/diary';
import type { Problem, Reading } from '@evenhand/core/problem';

/** How far the present work is. */
export interface Progress {
  /** sound: takes are packed or unpacked. reading: a file is checked. aside: one that is kept aside is packed. entries: they come in. readying: they are made ready to be read. */
  readonly part: 'sound' | 'reading' | 'aside' | 'entries' | 'readying';
  /** 0 to 1. */
  readonly share: number;
}

/** A diary packed into one file. */
export interface PackedDiary {
  readonly file: Blob;
  readonly recordCount: number;
  readonly takeCount: number;
}

/** A file that was checked to the last bit, and what bringing it back would do. */
export interface CheckedBackup {
  readonly recordCount: number;
  readonly takeCount: number;
  /** First and last practice day in it, null for a diary without any. */
  readonly firstDay: string | null;
  readonly lastDay: string | null;
  readonly plans: Readonly<Record<ImportMode, PlanCounts>>;
}

/** What an import adds and takes away. */
export interface PlanCounts extends Pick<ImportPlan, 'knownCount' | 'differingCount' | 'removedCount'> {
  readonly addedCount: number;
}

/** What was done. */
export interface BroughtIn extends PlanCounts {
  readonly mode: ImportMode;
  readonly takeCount: number;
  /** Whether the diary of before was kept aside; not when there was none, or nothing of it went. */
  readonly keptAside: boolean;
}

/** Requests with their answers. `bringIn` is about what was checked last. */
export interface BackupRequests {
  readonly save: { readonly ask: Record<string, never>; readonly answer: PackedDiary };
  /** Packs a diary that is kept aside in a database of its own. */
  readonly saveAside: { readonly ask: { readonly database: string }; readonly answer: PackedDiary };
  readonly check: { readonly ask: { readonly file: Blob }; readonly answer: CheckedBackup };
  /** The same of one that is kept aside in a database of its own. */
  readonly checkAside: { readonly ask: { readonly database: string }; readonly answer: CheckedBackup };
  readonly bringIn: { readonly ask: { readonly mode: ImportMode }; readonly answer: BroughtIn };
}

export type BackupRequestName = keyof BackupRequests;

export type ToBackupWorker =
  | { readonly type: 'start'; readonly storeName: string }
  | { [Name in BackupRequestName]: { readonly type: Name; readonly ask: BackupRequests[Name]['ask'] } }[BackupRequestName];

export type FromBackupWorker =
  | { readonly type: 'progress'; readonly progress: Progress }
  | { readonly type: 'answer'; readonly reading: Reading<BackupRequests[BackupRequestName]['answer'], Problem> };
