/** `diary export`: the whole diary in one file. */
import { readFileSync } from 'node:fs';
import { type BackupTake, partsOf, writeBackup, ZipFullError } from '@evenhand/adapters/backup';
import { fold, refuseBackup, writeTable } from '@evenhand/core/diary';
import { type SaidProblem, sayProblem, sizeName } from '@evenhand/core/words';
import { entryCountOf, takeCountOf } from '../counts.ts';
import { isTableName } from '../diary-folder/file-name.ts';
import { type FolderDiary, readDiary, takeFile } from '../diary-folder/folder.ts';
import { type Piece, readingProblem, type Tried, writePieces, writeWhole } from '../files.ts';
import type { Outcome } from '../outcome.ts';
import type { Call, Verb } from '../verb.ts';
import { inOption, notDone, wrongEnding } from './diary-options.ts';

export const diaryExport: Verb = {
  name: 'diary export',
  format: 'diary-export/1',
  summary: 'Puts the whole diary into one file.',
  about:
    'Puts the whole diary, takes included, into one file (.zip), whose contents any program can open; or its entries into a table for a spreadsheet (.csv). The same diary gives the same file, byte for byte.',
  takesFile: true,
  options: [inOption],
  example: 'evenhand diary export --in ~/diary backup.zip',
  empty: { file: null, recordCount: 0, takeCount: 0, byteCount: 0 },
  run: (call) => exportDiary(call),
};

async function exportDiary(call: Call): Promise<Outcome> {
  const file = call.files[0]!;
  const folder = call.text.in!;
  const wrong = wrongEnding(file);
  if (wrong) return notDone(diaryExport, [wrong.problem], wrong.exit);
  const diary = readDiary(folder);
  if (diary.problem) return notDone(diaryExport, [diary.problem]);
  if (isTableName(file)) return exportTable(diary.value, file);
  const written = await write(folder, diary.value, file);
  if (written.problem) return notDone(diaryExport, [written.problem]);
  const { records, takeIds, problems } = diary.value;
  const byteCount = written.value;
  return {
    exit: 0,
    json: { format: diaryExport.format, file, recordCount: records.length, takeCount: takeIds.length, byteCount, problems },
    lines: [`${entryCountOf(records.length)} and ${takeCountOf(takeIds.length)} are in "${file}" (${sizeName(byteCount)}).`],
  };
}

/** Sessions, blocks and notes as a table. */
function exportTable({ records, problems }: FolderDiary, file: string): Outcome {
  const bytes = new TextEncoder().encode(writeTable(fold(records)));
  const problem = writeWhole(file, bytes);
  if (problem) return notDone(diaryExport, [problem]);
  return {
    exit: 0,
    json: { format: diaryExport.format, file, recordCount: records.length, takeCount: 0, byteCount: bytes.length, problems },
    lines: [`The table is in "${file}" (${sizeName(bytes.length)}). Sound, plans and corrections are in a backup (.zip) alone.`],
  };
}

/** A take that could not be read. */
class TakeUnread extends Error {
  constructor(readonly problem: SaidProblem) {
    super(problem.text);
  }
}

function* takesOf(folder: string, takeIds: readonly string[]): Generator<BackupTake> {
  for (const takeId of takeIds) yield { takeId, flac: readTake(takeFile(folder, takeId)) };
}

function readTake(file: string): Uint8Array {
  try {
    return readFileSync(file);
  } catch (error) {
    throw new TakeUnread(readingProblem(file, error));
  }
}

async function* counted(pieces: AsyncIterable<Piece>, count: (bytes: number) => void): AsyncGenerator<Piece> {
  for await (const piece of pieces) {
    count(piece.bytes.length);
    yield piece;
  }
}

/** Writes the backup; gives its size. */
async function write(folder: string, { records, takeIds }: FolderDiary, file: string): Promise<Tried<number>> {
  let byteCount = 0;
  const pieces = counted(writeBackup(partsOf(records), takesOf(folder, takeIds)), (bytes) => {
    byteCount += bytes;
  });
  try {
    const problem = await writePieces(file, pieces);
    return problem ? { problem } : { value: byteCount };
  } catch (error) {
    if (error instanceof TakeUnread) return { problem: error.problem };
    if (error instanceof ZipFullError) return { problem: sayProblem(refuseBackup('backup-too-large', {})) };
    throw error;
  }
}
