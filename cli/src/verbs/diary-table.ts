/** A table of entries comes into a diary, or is only looked at. */
import { draftsOfTable, type FromTable, readTable, type TableRow } from '@evenhand/core/diary';
import { type SaidProblem, sayProblem } from '@evenhand/core/words';
import { countOf } from '../counts.ts';
import { type FolderDiary, hasDiary, makeDiary, readDiary } from '../diary-folder/folder.ts';
import { newId, zoneHere } from '../diary-folder/ids.ts';
import { asOnlyWriter } from '../diary-folder/lock.ts';
import { writeDrafts } from '../diary-folder/written.ts';
import { readText, type Tried, writingProblem } from '../files.ts';
import type { Outcome } from '../outcome.ts';
import type { Call, Verb } from '../verb.ts';
import { notDone } from './diary-options.ts';

/** What `diary import` does with a table. */
export async function importTable(verb: Pick<Verb, 'format' | 'empty'>, call: Call): Promise<Outcome> {
  const text = readText(call.files[0]!);
  if (text.problem) return notDone(verb, [text.problem]);
  const { value: rows, problems } = readTable(text.value);
  const said = problems.map((problem) => sayProblem(problem));
  if (!rows) return notDone(verb, said);
  const folder = call.text.in!;
  const done = call.flag.preview ? previewed(folder, rows) : await brought(folder, rows);
  if (done.problem) return notDone(verb, [done.problem]);
  return told(verb, done.value, { said, preview: call.flag.preview === true });
}

/** What would come in. Nothing is made or written. */
function previewed(folder: string, rows: readonly TableRow[]): Tried<FromTable> {
  if (!hasDiary(folder)) return { value: draftsFrom({ records: [] }, rows) };
  const diary = readDiary(folder);
  return diary.problem ? diary : { value: draftsFrom(diary.value, rows) };
}

async function brought(folder: string, rows: readonly TableRow[]): Promise<Tried<FromTable>> {
  try {
    makeDiary(folder);
    return await asOnlyWriter(folder, (): Tried<FromTable> => {
      const diary = readDiary(folder);
      if (diary.problem) return diary;
      const from = draftsFrom(diary.value, rows);
      const written = writeDrafts(folder, diary.value.records, from.drafts);
      return written.problem ? written : { value: from };
    });
  } catch (error) {
    return { problem: writingProblem(folder, error) };
  }
}

const draftsFrom = ({ records }: Pick<FolderDiary, 'records'>, rows: readonly TableRow[]): FromTable =>
  draftsOfTable(rows, {
    known: new Set(records.map(({ id }) => id)),
    newId,
    zone: zoneHere(),
    noonOf: (day) => new Date(`${day}T12:00:00`).getTime(),
  });

function told(
  { format, empty }: Pick<Verb, 'format' | 'empty'>,
  { drafts, sessionCount, blockCount, noteCount, knownCount }: FromTable,
  { said, preview }: { readonly said: readonly SaidProblem[]; readonly preview: boolean },
): Outcome {
  const counts = `${countOf(sessionCount, 'session')}, ${countOf(blockCount, 'block')} and ${countOf(noteCount, 'note')}`;
  const known = knownCount > 0 ? ` ${knownCount} ${knownCount === 1 ? 'is' : 'are'} here already.` : '';
  const left = said.length > 0 ? ` ${said.length === 1 ? '1 line is' : `${said.length} lines are`} left out.` : '';
  return {
    exit: 0,
    json: {
      format,
      ...empty,
      mode: preview ? 'preview' : 'merge',
      addedCount: drafts.length,
      knownCount,
      sessionCount,
      blockCount,
      noteCount,
      problems: said,
    },
    lines: [preview ? `${counts} would come in.${known}${left} Nothing was written.` : `${counts} came in.${known}${left}`],
  };
}
