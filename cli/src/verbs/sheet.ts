/** `sheet`: a phrase or an exercise written to a file. */
import { type FileKind, SHEET_KINDS, type SheetKind, sheetFile } from '@evenhand/adapters/sheet-file';
import type { ExerciseContent } from '@evenhand/core/exercise';
import type { SaidProblem } from '@evenhand/core/words';
import { readExercise } from '../exercise-file.ts';
import { writeWhole } from '../files.ts';
import type { ExitCode, Outcome } from '../outcome.ts';
import { paperOf, paperOption, refusePaper } from '../paper-option.ts';
import { phraseOptions, type ReadPhrase, readPhrase, surfacesOption } from '../phrase.ts';
import { refuse } from '../problems.ts';
import type { Call, Verb } from '../verb.ts';

const format = 'sheet/1';
const empty = { file: null, written: null };

export const sheet: Verb = {
  name: 'sheet',
  format,
  summary: 'Writes a phrase or an exercise in notes, or as sound.',
  about:
    'Writes a phrase or an exercise in standard notation with its sticking: a picture, a page to print, a file for notation programs, MIDI, or its sound. Give a sticking, or a file with one exercise.',
  takesFile: false,
  options: [
    ...phraseOptions.map((option) => ({ ...option, required: false })),
    surfacesOption,
    {
      name: 'exercise',
      kind: 'text',
      placeholder: 'FILE',
      example: 'exercise.json',
      about: 'One exercise, as `evenhand exercises --json --limit 1` prints it.',
    },
    {
      name: 'format',
      kind: 'text',
      placeholder: 'F',
      example: 'svg',
      about: `The kind of file: ${Object.keys(SHEET_KINDS).join(', ')}; unless said, what the name of the file ends in, else svg.`,
    },
    { name: 'tempo', kind: 'number', placeholder: 'BPM', example: '84', about: 'Beats per minute, for MIDI and sound; 60 unless said.' },
    { name: 'click', kind: 'switch', example: '', about: 'In sound: with a click.' },
    { name: 'counts', kind: 'switch', example: '', about: 'In pictures and print: what is counted aloud, under the notes.' },
    { name: 'stroke-types', kind: 'switch', example: '', about: 'In pictures and print: F full, D down, T tap, U up, under the notes.' },
    paperOption,
    { name: 'output', short: 'o', kind: 'text', placeholder: 'FILE', example: 'phrase.svg', required: true, about: 'The file to write.' },
  ],
  example: 'evenhand sheet --sticking "RLRLKK" --per-beat 4 -o phrase.svg',
  empty,
  run: (call) => writeSheet(call),
};

async function writeSheet(call: Call): Promise<Outcome> {
  const file = call.text.output!;
  const kind = kindOf(call.text.format, file);
  if (!kind) return failed(2, [refuse('call-sheet-format', { given: call.text.format ?? '' })]);
  const { paper } = call.text;
  const size = paperOf(call);
  if (paper !== undefined && !size) return failed(2, [refusePaper(paper)]);
  const { content, problems, exit, pointed } = contentOf(call);
  if (!content) return failed(exit, problems, pointed);
  const { tempo } = call.number;
  const bytes = await sheetFile(kind, content, {
    click: call.flag.click === true,
    madeMs: Date.now(),
    strokeTypes: call.flag['stroke-types'] === true,
    ...(size ? { size } : {}),
    ...(call.flag.counts ? { counts: 'en' } : {}),
    ...(tempo === undefined ? {} : { tempoBpm: tempo }),
  });
  const problem = writeWhole(file, bytes);
  if (problem) return failed(1, [...problems, problem], pointed);
  const words = kind === 'wav' ? 'sound' : 'sheet';
  return { exit: 0, json: { format, file, written: kind, problems }, lines: [`The ${words} is in ${file}.`], ...(pointed ? { pointed } : {}) };
}

/** The kind that was asked for, else the one the file's name ends in; null for one that cannot be written. */
function kindOf(asked: string | undefined, file: string): SheetKind | null {
  const kinds = Object.entries(SHEET_KINDS) as [SheetKind, FileKind][];
  if (asked !== undefined) return kinds.find(([kind]) => kind === asked)?.[0] ?? null;
  return kinds.find(([, { ending }]) => file.toLowerCase().endsWith(ending))?.[0] ?? 'svg';
}

interface Engraved {
  readonly content: ExerciseContent | null;
  readonly problems: readonly SaidProblem[];
  readonly exit: ExitCode;
  readonly pointed?: ReadPhrase['pointed'];
}

function contentOf(call: Call): Engraved {
  if (call.text.exercise !== undefined) return { ...readExercise(call.text.exercise), exit: 1 };
  const missing = phraseOptions.filter(({ name }) => call.text[name] === undefined && call.number[name] === undefined);
  if (missing.length > 0) {
    const problems = missing.map(({ name, example }) => refuse('call-option-missing', { option: `--${name}`, example: `--${name} ${example}` }));
    return { content: null, problems, exit: 2 };
  }
  const { phrase, problems, pointed } = readPhrase(call);
  return { content: phrase?.content ?? null, problems, exit: 2, pointed };
}

const failed = (exit: ExitCode, problems: readonly SaidProblem[], pointed?: ReadPhrase['pointed']): Outcome => ({
  exit,
  json: { format, ...empty, problems },
  lines: [],
  ...(pointed ? { pointed } : {}),
});
