/** A diary to read from, be it a folder or a backup: its records, and the sound of its takes. */
import { existsSync } from 'node:fs';
import type { DiaryRecord } from '@evenhand/core/diary';
import type { SaidProblem } from '@evenhand/core/words';
import { readBytes, type Tried } from '../files.ts';
import { withBackup } from './backup-file.ts';
import { isBackupName } from './file-name.ts';
import { readDiary, takeFile } from './folder.ts';

/** A diary that is open to be read. */
export interface ReadableDiary {
  readonly records: readonly DiaryRecord[];
  /** Lines that could not be read. */
  readonly problems: readonly SaidProblem[];
  /** The sound of a take as FLAC; null when it is not there. */
  soundOf(takeId: string): Promise<Uint8Array | null>;
}

/** Opens a diary and does something with it while it is open. @param place a folder, or a backup, whose name ends in .zip. */
export async function withDiaryAt<Value>(place: string, work: (diary: ReadableDiary) => Promise<Tried<Value>>): Promise<Tried<Value>> {
  if (isBackupName(place)) {
    return withBackup(place, ({ records, takeIds, readTake }) =>
      work({ records, problems: [], soundOf: async (takeId) => (takeIds.includes(takeId) ? readTake(takeId) : null) }),
    );
  }
  const diary = readDiary(place);
  if (diary.problem) return diary;
  return work({ ...diary.value, soundOf: async (takeId) => soundIn(takeFile(place, takeId)) });
}

const soundIn = (file: string): Uint8Array | null => (existsSync(file) ? (readBytes(file).value ?? null) : null);
