/** `exercises`: the shelf of exercises for a cell of a phrase. */
import { defaultFocus, type Exercise, exercisesFor, FAMILIES, type Family, type Piece, type PlayedAt, readFocus } from '@evenhand/core/exercise';
import { type SaidProblem, say, sayProblem } from '@evenhand/core/words';
import { nearest } from '../nearest.ts';
import type { Outcome } from '../outcome.ts';
import { phraseOptions, type ReadPhrase, readPhrase, surfacesOption } from '../phrase.ts';
import { refuseOption } from '../problems.ts';
import { beyondJson, playedOption, reachJson, readReach } from '../reach.ts';
import type { Call, Verb } from '../verb.ts';

const format = 'exercises/1';
const empty = { total: 0, exercises: [] };

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
    { name: 'family', kind: 'text', placeholder: 'F', example: 'inversion', about: `One kind only: ${FAMILIES.join(', ')}.` },
    {
      name: 'tempo',
      kind: 'number',
      placeholder: 'BPM',
      example: '96',
      about: 'Beats per minute they are wanted at: what lies beyond the reach so far comes last, and says so.',
    },
    playedOption,
    {
      name: 'piece',
      kind: 'text',
      placeholder: '"TITLE, PLACE@BPM"',
      example: '"Blue Hour, bridge@92"',
      about: 'What is being rehearsed: exercises in music name it.',
    },
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
  const piece = readPiece(call.text.piece);
  if (piece.problem) return wrong([...all, piece.problem], pointed);
  const known = readReach(call);
  if (known.problems.length > 0) return { ...wrong([...all, ...known.problems], pointed), exit: 1 };
  const { family } = call.text;
  const { limit, tempo } = call.number;
  const at: PlayedAt | null = tempo === undefined ? null : { tempoBpm: tempo, reach: known.reach };
  const shelf = exercisesFor(phrase.content, focus.value, {
    ...(family ? { families: [family as Family] } : {}),
    ...(limit ? { limit } : {}),
    ...(at ? { at } : {}),
    ...(piece.value ? { piece: piece.value } : {}),
  });
  const beyond = (exercise: Exercise) => (at ? { beyond: beyondJson(exercise, { phrase: phrase.content, at, played: known.played }) } : {});
  const found = shelf.exercises.map((exercise) => ({ ...jsonOfExercise(exercise), ...beyond(exercise) }));
  const reach = at ? { reach: reachJson(known) } : {};
  return {
    exit: 0,
    json: { format, total: shelf.total, ...reach, exercises: found, problems: all },
    lines: [...linesOf({ total: shelf.total, exercises: found }), ...(reach.reach ? ['', ...reach.reach.map(({ text }) => text)] : [])],
    pointed,
  };
}

/** `Blue Hour, bridge@92` as a piece; the place may be left out. */
function readPiece(given: string | undefined): { readonly value?: Piece; readonly problem?: SaidProblem } {
  if (given === undefined) return {};
  const found = /^\s*([^,@]+?)\s*(?:,\s*([^@]+?)\s*)?@\s*(\d+(?:\.\d+)?)\s*$/.exec(given);
  const tempoBpm = Number(found?.[3]);
  if (found && tempoBpm > 0) return { value: { title: found[1]!, place: found[2] ?? '', tempoBpm } };
  const wanted = 'a title, a place if you like, and a tempo above zero';
  return { problem: refuseOption('--piece', given, { wanted, example: '"Blue Hour, bridge@92"' }) };
}

function familyProblems(given: string | undefined): SaidProblem[] {
  if (given === undefined || (FAMILIES as readonly string[]).includes(given)) return [];
  return [refuseOption('--family', given, { wanted: `one of ${FAMILIES.join(', ')}`, example: nearest(given, FAMILIES) ?? 'inversion' })];
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

interface PrintedExercise {
  readonly title: string;
  readonly sticking: string;
  readonly reason: string;
  readonly beyond?: readonly { readonly text: string }[];
}

function linesOf({ total, exercises: found }: { readonly total: number; readonly exercises: readonly PrintedExercise[] }): string[] {
  const heading = found.length === total ? `${total} exercises.` : `${found.length} of ${total} exercises.`;
  const lines = ({ title, sticking, reason, beyond = [] }: PrintedExercise, i: number) => [
    ...['', `${i + 1}. ${title}`, `   ${sticking}`, `   ${reason}`],
    ...beyond.map(({ text }) => `   ${text}`),
  ];
  return [heading, ...found.flatMap(lines)];
}
