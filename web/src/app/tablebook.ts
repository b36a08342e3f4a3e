/** The diary as a table, out and in; fetched when it is asked for. */
import { type DiaryView, draftsOfTable, type FromTable, readTable, type TableProblem, writeTable } from '@evenhand/core/diary';
import { saveFile } from '../backup/download.ts';
import { noonOf } from './noon.ts';
import { playerPart } from './ownfiles.ts';

/** Saves the table. @returns the name of the file. */
export function saveTable(diary: DiaryView, day: string): string {
  const name = `evenhand${playerPart()}-${day}.csv`;
  saveFile(new Blob([writeTable(diary)], { type: 'text/csv' }), name);
  return name;
}

/** What a table would bring; `from` is null when nothing can be told from it. */
export interface LookedAt {
  readonly from: FromTable | null;
  readonly problems: readonly TableProblem[];
}

/** Looks at a table without writing anything. @param ids of the records that are here. */
export async function lookAtTable(
  file: Blob,
  ids: readonly string[],
  { newId, zone }: { readonly newId: () => string; readonly zone: string },
): Promise<LookedAt> {
  const { value: rows, problems } = readTable(await file.text());
  const known = new Set(ids);
  return { from: rows && draftsOfTable(rows, { known, newId, zone, noonOf }), problems };
}
