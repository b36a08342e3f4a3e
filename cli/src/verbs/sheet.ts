/** `sheet`: a phrase or an exercise engraved to a file. */
import type { ExerciseContent } from '@evenhand/core/exercise';
import type { SaidProblem } from '@evenhand/core/words';
import { readExercise } from '../exercise-file.ts';
import { writeWhole } from '../files.ts';
import type { ExitCode, Outcome } from '../outcome.ts';
import { phraseOptions, type ReadPhrase, readPhrase, surfacesOption } from '../phrase.ts';
import { refuse } from '../problems.ts';
import type { Call, Verb } from '../verb.ts';

const format = 'sheet/1';
const empty = { file: null, written: null };

export const sheet: Verb = {
  name: 'sheet',
  format,
  summary: 'Writes a phrase or an exercise in notes, with its sticking.',
  about: 'Writes a phrase or an exercise in standard notation with its sticking, as an SVG picture. Give a sticking, or a file with one exercise.',
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
    { name: 'format', kind: 'text', placeholder: 'svg', example: 'svg', about: 'The kind of file; svg unless said, and the only one yet.' },
    { name: 'output', short: 'o', kind: 'text', placeholder: 'FILE', example: 'phrase.svg', required: true, about: 'The file to write.' },
  ],
  example: 'evenhand sheet --sticking "RLRLKK" --per-beat 4 -o phrase.svg',
  empty,
  run: (call) => engrave(call),
};

async function engrave(call: Call): Promise<Outcome> {
  const kind = call.text.format ?? 'svg';
  if (kind !== 'svg') return failed(2, [refuse('call-sheet-format', { given: kind })]);
  const { content, problems, exit, pointed } = contentOf(call);
  if (!content) return failed(exit, problems, pointed);
  // Loaded only here: the engraver is most of the program, and the other verbs start sooner without it.
  const { engraveSvg } = await import('@evenhand/core/sheet');
  const file = call.text.output!;
  const problem = writeWhole(file, engraveSvg(content));
  if (problem) return failed(1, [...problems, problem], pointed);
  return { exit: 0, json: { format, file, written: kind, problems }, lines: [`The sheet is in ${file}.`], ...(pointed ? { pointed } : {}) };
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
