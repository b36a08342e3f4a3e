/** The page's side of the backup's Worker: started when first needed, one request after the other. */
import type { ImportMode } from '@evenhand/core/diary';
import type { Problem, Reading } from '@evenhand/core/problem';
import type {
  BackupRequestName,
  BackupRequests,
  BroughtIn,
  CheckedBackup,
  FromBackupWorker,
  PackedDiary,
  Progress,
  ToBackupWorker,
} from './protocol.ts';

/** Packs and brings back one diary. No promise of it rejects. */
export interface Packer {
  /** Packs the diary as it is, and notes that it was saved. */
  save(): Promise<Reading<PackedDiary>>;
  /** Checks a file to the last bit; nothing is changed. */
  check(file: Blob): Promise<Reading<CheckedBackup>>;
  /** Packs a diary that is kept aside in that database. */
  saveAside(database: string): Promise<Reading<PackedDiary>>;
  /** The same as `check` of one that is kept aside in that database. */
  checkAside(database: string): Promise<Reading<CheckedBackup>>;
  /** Brings in what was checked last. Refused, the diary is as it was. */
  bringIn(mode: ImportMode): Promise<Reading<BroughtIn>>;
  /** Ends the Worker; what it was about to do in one piece is not done. */
  close(): void;
}

const STOPPED: Problem = { code: 'store-failed', severity: 'refused', params: { reason: 'the packing stopped' } };

/** @param tell told how far the present request is. */
export function startPacker(storeName: string, tell: (progress: Progress) => void): Packer {
  let answer: (reading: Reading<never>) => void = () => {};
  const worker = new Worker(new URL('./backup.worker.ts', import.meta.url), { type: 'module', name: 'evenhand-backup' });
  const say = (message: ToBackupWorker): void => worker.postMessage(message);
  worker.onmessage = ({ data }: MessageEvent<FromBackupWorker>) => {
    if (data.type === 'progress') tell(data.progress);
    else answer(data.reading as Reading<never>);
  };
  worker.onerror = (event) => {
    event.preventDefault();
    answer({ value: null, problems: [STOPPED] });
  };
  say({ type: 'start', storeName });
  const ask = <Name extends BackupRequestName>(type: Name, what: BackupRequests[Name]['ask']): Promise<Reading<BackupRequests[Name]['answer']>> =>
    new Promise((resolve) => {
      answer = resolve as (reading: Reading<never>) => void;
      say({ type, ask: what } as ToBackupWorker);
    });
  return {
    save: () => ask('save', {}),
    check: (file) => ask('check', { file }),
    saveAside: (database) => ask('saveAside', { database }),
    checkAside: (database) => ask('checkAside', { database }),
    bringIn: (mode) => ask('bringIn', { mode }),
    close: () => worker.terminate(),
  };
}
