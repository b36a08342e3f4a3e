/** A diary in a folder: `records.jsonl`, `takes/`, and in `device.json` who writes here. Records are appended; what was acknowledged is on the disk. */
import { closeSync, existsSync, fsyncSync, ftruncateSync, openSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type DiaryRecord, isTakeId, type LineProblem, letGoIn, mergeRecords, readLines, writeLines } from '@evenhand/core/diary';
import type { SaidProblem } from '@evenhand/core/words';
import { makeFolder, readText, syncFolder, type Tried, writeWhole } from '../files.ts';
import { doubt, refuse } from '../problems.ts';

/** The file that holds the records. */
export const RECORDS = 'records.jsonl';
const TAKES = 'takes';
const DEVICE = 'device.json';

/** What lies in a folder. */
export interface FolderDiary {
  /** In order of making, doubles merged. */
  readonly records: readonly DiaryRecord[];
  /** Takes whose sound is here and that a record speaks of, by rising id; not those whose sound stands let go. */
  readonly takeIds: readonly string[];
  /** Lines that could not be read. */
  readonly problems: readonly SaidProblem[];
}

/** Who writes in this folder. */
export interface Writer {
  readonly deviceId: string;
  readonly ownerId: string;
}

/** The file that holds the sound of a take. */
export const takeFile = (folder: string, takeId: string): string => join(folder, TAKES, `${takeId}.flac`);

/** Whether a diary lies in a folder, be it empty. */
export const hasDiary = (folder: string): boolean => existsSync(join(folder, RECORDS));

/** Reads a diary. A last line without an end, an entry that is being written or was never finished, counts only if it can be read. */
export function readDiary(folder: string): Tried<FolderDiary> {
  if (statSync(folder, { throwIfNoEntry: false })?.isFile()) return { problem: refuse('file-not-folder', { file: folder }) };
  if (!hasDiary(folder)) return { problem: refuse('diary-not-there', { folder }) };
  const file = join(folder, RECORDS);
  const text = readText(file);
  if (text.problem) return text;
  const unfinished = text.value.endsWith('\n') ? 0 : text.value.split('\n').length;
  const { value, problems } = readLines(text.value);
  const records = mergeRecords(value ?? [], []);
  const lost = problems.filter(({ at }) => at !== unfinished);
  return { value: { records, takeIds: takesOf(folder, records), problems: lost.length > 0 ? [leftOut(file, lost)] : [] } };
}

const leftOut = (file: string, lost: readonly LineProblem[]): SaidProblem =>
  doubt('diary-lines-left-out', { file, lineCount: lost.length, firstLine: lost[0]!.params.line });

function takesOf(folder: string, records: readonly DiaryRecord[]): readonly string[] {
  const ids = new Set(records.map(({ id }) => id));
  const gone = letGoIn(records);
  const names = existsSync(join(folder, TAKES)) ? readdirSync(join(folder, TAKES)) : [];
  return names
    .flatMap((name) => (name.endsWith('.flac') ? [name.slice(0, -5)] : []))
    .filter((id) => isTakeId(id) && ids.has(id) && !gone.has(id))
    .sort();
}

/** Makes the folder and an empty diary in it, unless they are there. */
export function makeDiary(folder: string): void {
  makeFolder(folder);
  makeFolder(join(folder, TAKES));
  if (hasDiary(folder)) return;
  closeSync(openSync(join(folder, RECORDS), 'a'));
  syncFolder(folder);
}

/**
 * Who writes here; remembered from the first time on. To be called by the only writer.
 * @param fresh used when nobody has written here.
 */
export function writerOf(folder: string, fresh: Writer): Tried<Writer> {
  const file = join(folder, DEVICE);
  if (existsSync(file)) {
    const known = JSON.parse(readFileSync(file, 'utf8')) as Writer;
    return { value: { deviceId: known.deviceId, ownerId: known.ownerId } };
  }
  return rememberWriter(folder, fresh);
}

/** Remembers who writes here from now on. To be called by the only writer. */
export function rememberWriter(folder: string, writer: Writer): Tried<Writer> {
  const problem = writeWhole(join(folder, DEVICE), `${JSON.stringify({ format: 'evenhand-device/1', ...writer })}\n`);
  return problem ? { problem } : { value: writer };
}

/** Adds records behind what is there. They are on the disk when this returns. Throws what the disk throws. To be called by the only writer. */
export function appendRecords(folder: string, records: readonly DiaryRecord[]): void {
  const handle = openSync(join(folder, RECORDS), 'a+');
  try {
    const text = readFileSync(handle, 'utf8');
    writeFileSync(handle, mended(handle, text) + writeLines(records));
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

/** What must stand before the next line: nothing, or the end of a line that lacks it. Half a line, never acknowledged, is taken away. */
function mended(handle: number, text: string): string {
  if (text === '' || text.endsWith('\n')) return '';
  const endOfLines = text.lastIndexOf('\n') + 1;
  if (readLines(text.slice(endOfLines)).value?.length === 1) return '\n';
  ftruncateSync(handle, Buffer.byteLength(text.slice(0, endOfLines)));
  return '';
}

/** Puts other records in the place of all that are there, whole or not at all. To be called by the only writer. */
export const replaceRecords = (folder: string, records: readonly DiaryRecord[]): SaidProblem | null =>
  writeWhole(join(folder, RECORDS), writeLines(records));
