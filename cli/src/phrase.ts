/** The phrase a call speaks of: its sticking, how it lies on the beat, its drums. */
import { type ExerciseContent, readContent } from '@evenhand/core/exercise';
import { readSticking, type Sticking } from '@evenhand/core/sticking';
import { type SaidProblem, sayProblem } from '@evenhand/core/words';
import type { Outcome } from './outcome.ts';
import type { Call, OptionSpec } from './verb.ts';

export interface ReadPhrase {
  readonly phrase: { readonly sticking: Sticking; readonly content: ExerciseContent } | null;
  readonly problems: readonly SaidProblem[];
  /** For the caret under a wrong character. */
  readonly pointed: NonNullable<Outcome['pointed']>;
}

/** The options that say a phrase. */
export const phraseOptions: readonly OptionSpec[] = [
  {
    name: 'sticking',
    kind: 'text',
    placeholder: 'S',
    example: '"RLRLKK"',
    required: true,
    about: 'What is played: R L hands, K bass drum, H other foot, - rest, > accent, lR flam, (R) ghost.',
  },
  {
    name: 'per-beat',
    kind: 'whole',
    placeholder: 'N',
    example: '4',
    required: true,
    about: 'Slots per beat: 2 eighths, 3 triplets, 4 sixteenths, 6 sextuplets, 8 thirty-seconds.',
  },
];

/** Where it is played, for verbs that care. */
export const surfacesOption: OptionSpec = {
  name: 'surfaces',
  kind: 'text',
  placeholder: '"D D …"',
  example: '"snare snare kick"',
  about: 'The drum of each stroke, or of a limb ("R=ride L=snare"); unless said, one drum for the hands and the kick.',
};

/** Reads the phrase of a call whose options were checked. */
export function readPhrase(call: Call): ReadPhrase {
  const text = call.text.sticking ?? '';
  const read = readSticking(text);
  const ofSticking = read.problems.map((problem) => sayProblem(problem));
  const pointed = { text, problems: ofSticking };
  if (!read.value) return { phrase: null, problems: ofSticking, pointed };
  const { surfaces } = call.text;
  const content = readContent(read.value, { perBeat: call.number['per-beat'] ?? 0, ...(surfaces === undefined ? {} : { surfaces }) });
  const problems = [...ofSticking, ...content.problems.map((problem) => sayProblem(problem))];
  return { phrase: content.value && { sticking: read.value, content: content.value }, problems, pointed };
}
