/** What can be wrong with a diary that lies in a folder, and the English for it. */
import type { Problem } from '@evenhand/core/problem';
import type { Sentences } from '@evenhand/core/words';
import { entryCountOf } from '../counts.ts';

/** The call itself: exit code 2. */
type CallProblem =
  | Problem<'diary-nothing-to-add', Record<string, never>>
  | Problem<'diary-file-ending', { readonly file: string }>
  | Problem<'diary-merge-or-whole', Record<string, never>>
  | Problem<'diary-table-merges', Record<string, never>>
  | Problem<'diary-preview-table', Record<string, never>>
  | Problem<'diary-thin-one', Record<string, never>>;

/** The folder and its files: exit code 1 when refused. */
type FolderProblem =
  | Problem<'diary-not-there', { readonly folder: string }>
  | Problem<'diary-busy', { readonly folder: string; readonly lock: string }>
  | Problem<'diary-lines-left-out', { readonly file: string; readonly lineCount: number; readonly firstLine: number }>
  | Problem<'diary-newer-records', { readonly recordCount: number }>
  | Problem<'diary-day-ahead', { readonly day: string }>
  | Problem<'diary-table-no-check', { readonly file: string }>
  | Problem<'diary-nothing-back', Record<string, never>>
  | Problem<'diary-entries-differ', { readonly entryCount: number }>;

export type DiaryFolderProblem = CallProblem | FolderProblem;

export const diaryFolderSentences: Sentences<DiaryFolderProblem> = {
  'diary-nothing-to-add': () => 'There is nothing to write down. Add --minutes 20, --note "what you worked on", or both.',
  'diary-file-ending': ({ file }) => `"${file}" does not say what kind of file it is. Let its name end in .zip, the backup, or in .csv, a table.`,
  'diary-merge-or-whole': () => 'Say --merge or --whole, not both: merge keeps what both have, whole puts the backup in the place of the diary.',
  'diary-table-merges': () => 'A table can only be put beside what is here, never in its place: leave --whole out.',
  'diary-preview-table': () => '--preview looks at a table (.csv). What a backup holds says `evenhand diary check FILE.zip`.',
  'diary-thin-one': () => 'Say one of --do, --back and --free.',
  'diary-nothing-back': () => 'No sound was let go that is still here, so nothing can come back. What was freed is only in an older backup.',
  'diary-not-there': ({ folder }) => `There is no diary in "${folder}". Check the folder, or begin one with \`evenhand diary add --in ${folder}\`.`,
  'diary-busy': ({ folder, lock }) =>
    `Another program is writing to the diary in "${folder}", so nothing was changed. Wait until it is done; if none is at work, remove "${lock}".`,
  'diary-lines-left-out': ({ file, lineCount, firstLine }) =>
    `${lineCount === 1 ? `Line ${firstLine} of "${file}" is not an entry and was` : `${lineCount} lines of "${file}", the first is line ${firstLine}, are no entries and were`} left out; the file itself was not changed.`,
  'diary-newer-records': ({ recordCount }) =>
    `${entryCountOf(recordCount)} cannot be shown by this version of Evenhand, being from a newer one or damaged. Nothing of that is lost: it is kept and goes into every backup.`,
  'diary-day-ahead': ({ day }) => `${day} is still to come. It was written down all the same; check the day.`,
  'diary-table-no-check': ({ file }) =>
    `"${file}" is a table; only a backup (.zip) can be checked bit by bit. \`evenhand diary import --preview\` says what a table would bring.`,
  'diary-entries-differ': ({ entryCount }) =>
    `Of ${entryCountOf(entryCount)} the diary and the backup hold different versions, as after damage. The later counts.`,
};
