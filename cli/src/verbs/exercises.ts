/** `exercises`: the shelf of exercises for a cell of a phrase. */
import { defaultFocus, type Exercise, exercisesFor, type Family, readFocus } from '@evenhand/core/exercise';
import { type SaidProblem, say, sayProblem } from '@evenhand/core/words';
import { nearest } from '../nearest.ts';
import type { Outcome } from '../outcome.ts';
import { phraseOptions, type ReadPhrase, readPhrase, surfacesOption } from '../phrase.ts';
import { refuse } from '../problems.ts';
import type { Call, Verb } from '../verb.ts';

const format = 'exercises/1';
const empty = { total: 0, exercises: [] };
const families: readonly Family[] = ['rudiment', 'pad', 'groove', 'fill', 'kit', 'dynamics', 'inversion', 'use'];

export const exercises: Verb = {
  name: 'exercises',
  format,
  summary: 'Gives exercises for the strokes that fail, each with its reason.',
  about: 'Gives exercises for a few neighbouring strokes of a phrase (the cell), each with the reason why it is there.',
  takesFile: false,
  options: [
    ...phraseOptions,
    surfacesOption,
    {
      name: 'cell',
      kind: 'span',
      placeholder: 'A-B',
      example: '5-6',
      about: 'First and last stroke to work on, counted from 1; unless said, the first double.',
    },
    { name: 'family', kind: 'text', placeholder: 'F', example: 'inversion', about: `One kind only: ${families.join(', ')}.` },
    { name: 'limit', kind: 'whole', placeholder: 'N', example: '5', about: 'At most so many.' },
  ],
  example: 'evenhand exercises --sticking "RLRLKK" --per-beat 4 --cell 5-6 --limit 5',
  empty,
  run: (call) => shelfOf(call),
};

function shelfOf(call: Call): Outcome {
  const wrong = (problems: readonly SaidProblem[], pointed: ReadPhrase['pointed']): Outcome => ({
    exit: 2,
    json: { format, ...empty, problems },
    lines: [],
    pointed,
  });
  const { phrase, problems, pointed } = readPhrase(call);
  const ofFamily = familyProblems(call.text.family);
  if (!phrase || ofFamily.length > 0) return wrong([...problems, ...ofFamily], pointed);
  const focus = call.span.cell ? readFocus(call.span.cell, phrase.sticking) : { value: defaultFocus(phrase.sticking), problems: [] };
  const all = [...problems, ...focus.problems.map((problem) => sayProblem(problem))];
  if (!focus.value) return wrong(all, pointed);
  const { family } = call.text;
  const { limit } = call.number;
  const shelf = exercisesFor(phrase.content, focus.value, {
    ...(family ? { families: [family as Family] } : {}),
    ...(limit ? { limit } : {}),
  });
  return {
    exit: 0,
    json: { format, total: shelf.total, exercises: shelf.exercises.map(jsonOfExercise), problems: all },
    lines: linesOf(shelf),
    pointed,
  };
}

function familyProblems(given: string | undefined): SaidProblem[] {
  if (given === undefined || (families as readonly string[]).includes(given)) return [];
  const example = `--family ${nearest(given, families) ?? 'inversion'}`;
  return [refuse('call-option-not', { option: '--family', given, wanted: `one of ${families.join(', ')}`, example })];
}

/** An exercise in `exercises/1` and wherever else exercises are printed; `title` and `reason` are sentences. */
export const jsonOfExercise = ({ id, family, title, sticking, surfaces, perBeat, meter, bars, reason }: Exercise) => ({
  id,
  family,
  title: say(title),
  sticking,
  surfaces,
  perBeat,
  meter,
  bars,
  reason: say(reason),
});

function linesOf({ total, exercises: found }: { readonly total: number; readonly exercises: readonly Exercise[] }): string[] {
  const heading = found.length === total ? `${total} exercises.` : `${found.length} of ${total} exercises.`;
  return [
    heading,
    ...found.flatMap((exercise, i) => ['', `${i + 1}. ${say(exercise.title)}`, `   ${exercise.sticking}`, `   ${say(exercise.reason)}`]),
  ];
}
