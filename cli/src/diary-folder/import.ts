/** A backup becomes part of a diary in a folder, or takes its place. */
import { copyFileSync, existsSync, linkSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { BackupAtOnce } from '@evenhand/adapters/backup';
import { canonicalJson, type DiaryRecord, type ImportMode, type ImportPlan, letGoIn, ownerOf, planImport } from '@evenhand/core/diary';
import type { SaidProblem } from '@evenhand/core/words';
import { makeFolder, syncFolder, type Tried, writeWhole } from '../files.ts';
import { appendRecords, type FolderDiary, RECORDS, readDiary, rememberWriter, replaceRecords, takeFile, writerOf } from './folder.ts';
import { newId } from './ids.ts';

/** What was done. */
export interface Imported extends Pick<ImportPlan, 'knownCount' | 'differingCount' | 'removedCount'> {
  readonly mode: ImportMode;
  readonly addedCount: number;
  /** Folder in which the diary lies that was here before, null when there was none or it was kept. */
  readonly replacedIn: string | null;
}

/**
 * Brings a checked backup into a folder. To be called by the only writer. Takes come first and records last, so that a crash in between leaves the
 * diary as it was, with sound beside it that no record speaks of yet.
 * @param wanted whole: in the place of what is here, which is kept in a folder of its own; merge: beside it. An empty diary takes the backup whole.
 */
export async function importBackup(folder: string, backup: BackupAtOnce, wanted: ImportMode): Promise<Tried<Imported>> {
  const diary = readDiary(folder);
  if (diary.problem) return diary;
  const present = diary.value.records;
  const mode = present.length === 0 ? 'whole' : wanted;
  const plan = planImport(present, backup.records, mode);
  const replacedIn = mode === 'whole' && present.length > 0 ? keepAside(folder, diary.value) : null;
  const unwritten = await writeTakes(folder, backup, { mode, present });
  const problem = unwritten ?? (mode === 'whole' ? replaceRecords(folder, plan.records) : appendNew(folder, present, plan.records));
  if (problem) {
    if (replacedIn) rmSync(replacedIn, { recursive: true });
    return { problem };
  }
  const settled = mode === 'whole' ? settle(folder, diary.value, backup) : null;
  if (settled?.problem) return settled;
  const { knownCount, differingCount, removedCount } = plan;
  return { value: { mode, addedCount: plan.added.length, knownCount, differingCount, removedCount, replacedIn } };
}

/** Puts a second name for every file of the diary into a folder beside it: a diary of its own, from before the import. */
function keepAside(folder: string, { takeIds }: FolderDiary): string {
  let n = 1;
  while (existsSync(join(folder, `replaced-${n}`))) n++;
  const aside = join(folder, `replaced-${n}`);
  makeFolder(join(aside, 'takes'));
  for (const takeId of takeIds) secondName(takeFile(folder, takeId), takeFile(aside, takeId));
  secondName(join(folder, RECORDS), join(aside, RECORDS));
  syncFolder(join(aside, 'takes'));
  syncFolder(aside);
  return aside;
}

/** A link costs no room; where a disk has none, a copy. Neither changes when the first name is given to another file. */
function secondName(from: string, to: string): void {
  try {
    linkSync(from, to);
  } catch {
    copyFileSync(from, to);
  }
}

async function writeTakes(
  folder: string,
  backup: BackupAtOnce,
  { mode, present }: { readonly mode: ImportMode; readonly present: readonly DiaryRecord[] },
): Promise<SaidProblem | null> {
  // Sound that was let go here, or in the diary that comes, does not come back by it.
  const gone = letGoIn(mode === 'whole' ? [] : [...present, ...backup.records]);
  for (const takeId of backup.takeIds) {
    const file = takeFile(folder, takeId);
    if (mode === 'merge' && (existsSync(file) || gone.has(takeId))) continue;
    const problem = writeWhole(file, await backup.readTake(takeId));
    if (problem) return problem;
  }
  return null;
}

function appendNew(folder: string, present: readonly DiaryRecord[], after: readonly DiaryRecord[]): null {
  const here = new Set(present.map(canonicalJson));
  appendRecords(
    folder,
    after.filter((record) => !here.has(canonicalJson(record))),
  );
  return null;
}

/** After a whole import: sound of the old diary goes (it is kept aside), and who writes here writes on in the name of the new one. */
function settle(folder: string, before: FolderDiary, backup: BackupAtOnce): Tried<unknown> {
  for (const takeId of before.takeIds) if (!backup.takeIds.includes(takeId)) rmSync(takeFile(folder, takeId), { force: true });
  const writer = writerOf(folder, { deviceId: newId(), ownerId: newId() });
  if (writer.problem) return writer;
  return rememberWriter(folder, { ...writer.value, ownerId: ownerOf(backup.records) ?? writer.value.ownerId });
}
