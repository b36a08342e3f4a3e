/** Sound of takes that is let go: kept in a folder of its own until it is taken back or freed. */
import { existsSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { type DiaryRecord, deletionOf, fold, type KnownRecord, letGoIn, type RecordDraft } from '@evenhand/core/diary';
import type { KeptSound, Thinning } from '@evenhand/core/progress';
import { makeFolder, syncFolder, type Tried } from '../files.ts';
import { refuse } from '../problems.ts';
import { type FolderDiary, takeFile } from './folder.ts';
import { writeDrafts } from './written.ts';

const LET_GO = 'let-go';

const letGoFile = (folder: string, takeId: string): string => join(folder, LET_GO, `${takeId}.flac`);

/** Takes that have their sound here, with its size. */
export const soundsIn = (folder: string, { takeIds }: FolderDiary): readonly KeptSound[] =>
  takeIds.map((takeId) => ({ takeId, byteCount: statSync(takeFile(folder, takeId)).size }));

/** When something is written. */
export type When = Pick<RecordDraft, 'atMs' | 'zone' | 'day'>;

/** Lets sound go: the record first, then the files, so that a crash in between leaves sound that no backup takes along. To be called by the only writer. */
export function letGo(
  folder: string,
  diary: FolderDiary,
  { takeIds, byteCount, when }: Pick<Thinning, 'takeIds' | 'byteCount'> & { readonly when: When },
): Tried<true> {
  const written = writeDrafts(folder, diary.records, [{ ...when, kind: 'thinning', body: { takeIds, byteCount } }]);
  if (written.problem) return written;
  moveAway(folder, [...diary.records, ...written.value]);
  return { value: true };
}

/** Moves the sound of all takes that stand let go out of the way; what a crash left behind too. */
function moveAway(folder: string, records: readonly DiaryRecord[]): void {
  const gone = [...letGoIn(records).keys()].filter((takeId) => existsSync(takeFile(folder, takeId)));
  if (gone.length === 0) return;
  makeFolder(join(folder, LET_GO));
  for (const takeId of gone) renameSync(takeFile(folder, takeId), letGoFile(folder, takeId));
  syncFolder(join(folder, LET_GO));
}

/** Takes back what was let go last: the files first, then the record. To be called by the only writer. */
export function takeBack(folder: string, { records }: FolderDiary, when: When): Tried<KnownRecord<'thinning'>> {
  const last = fold(records).thinnings.at(-1);
  const isHere = last?.body.takeIds.every((takeId) => existsSync(letGoFile(folder, takeId)) || existsSync(takeFile(folder, takeId)));
  if (!last || !isHere) return { problem: refuse('diary-nothing-back', {}) };
  for (const takeId of last.body.takeIds) {
    if (existsSync(letGoFile(folder, takeId))) renameSync(letGoFile(folder, takeId), takeFile(folder, takeId));
  }
  const written = writeDrafts(folder, records, [{ ...when, kind: 'edit', body: deletionOf(last) }]);
  return written.problem ? written : { value: last };
}

/** Frees the room of all that was let go. @returns how many takes and bytes. To be called by the only writer. */
export function freeLetGo(folder: string, { records }: FolderDiary): Pick<Thinning, 'byteCount'> & { readonly takeCount: number } {
  moveAway(folder, records);
  const names = existsSync(join(folder, LET_GO)) ? readdirSync(join(folder, LET_GO)) : [];
  const byteCount = names.reduce((sum, name) => sum + statSync(join(folder, LET_GO, name)).size, 0);
  rmSync(join(folder, LET_GO), { recursive: true, force: true });
  return { takeCount: names.length, byteCount };
}
