/** What the verbs of the diary share: the folder, the kind of file, and how an outcome is given. */
import type { SaidProblem } from '@evenhand/core/words';
import { isBackupName, isTableName } from '../diary-folder/file-name.ts';
import type { ExitCode, Outcome } from '../outcome.ts';
import { refuse } from '../problems.ts';
import type { OptionSpec, Verb } from '../verb.ts';

/** The folder in which a diary lies. */
export const inOption: OptionSpec = {
  name: 'in',
  kind: 'text',
  placeholder: 'FOLDER',
  example: '~/diary',
  required: true,
  about: 'Folder in which the diary lies.',
};

/** Nothing could be given, or the call was wrong. */
export const notDone = ({ format, empty }: Pick<Verb, 'format' | 'empty'>, problems: readonly SaidProblem[], exit: ExitCode = 1): Outcome => ({
  exit,
  json: { format, ...empty, problems },
  lines: [],
});

/** What keeps a name from being that of a backup or a table: no ending that says so (exit 2). */
export const wrongEnding = (file: string): { readonly problem: SaidProblem; readonly exit: ExitCode } | null =>
  isTableName(file) || isBackupName(file) ? null : { problem: refuse('diary-file-ending', { file }), exit: 2 };
