/** What is agreed with a plan on the command line: caps, ways of work, clicks, the player's own blocks, for a player or a pupil. */
import { isDay } from '@evenhand/core/diary';
import { type Exercise, ownExercise } from '@evenhand/core/exercise';
import type { PlanRequest, Way } from '@evenhand/core/plan';
import type { SaidProblem } from '@evenhand/core/words';
import { readExercise } from './exercise-file.ts';
import { refuseOption } from './problems.ts';
import type { Call, OptionSpec } from './verb.ts';

/** What was agreed, as a plan is asked for it. */
export type Agreed = Pick<PlanRequest, 'caps' | 'ways' | 'own' | 'clicks' | 'who'>;

const WAYS: Readonly<Record<string, Way>> = { 'one-tempo': 'oneTempo', bursts: 'bursts', 'two-up-one-back': 'twoUpOneBack' };

const CLICKS: Readonly<Record<string, Omit<NonNullable<PlanRequest['clicks']>[number], 'exerciseId'>>> = {
  'two-and-four': { click: { place: 'twoAndFour' } },
  one: { click: { place: 'one' } },
  'off-beats': { click: { place: 'offBeats' } },
  'every-second-bar': { click: { place: 'everySecondBar' } },
  'silent-bars': { click: { bars: { sounding: 2, silent: 2 } } },
  eighths: { click: { perBeat: 2 } },
  fewer: { fewerClicks: true },
};

export const agreedOptions: readonly OptionSpec[] = [
  {
    name: 'cap',
    kind: 'texts',
    placeholder: '[ID=]BPM …',
    example: '80',
    about: 'No faster than this: the phrase, or the exercise with that id (its beginning is enough).',
  },
  {
    name: 'way',
    kind: 'texts',
    placeholder: '[ID=]WAY …',
    example: 'one-tempo',
    about: `How the phrase or an exercise is worked on, where results do not move the tempo: ${Object.keys(WAYS).join(', ')}.`,
  },
  {
    name: 'click',
    kind: 'texts',
    placeholder: '[ID=]CLICK …',
    example: 'two-and-four',
    about: `How the phrase or an exercise is clicked, where not on every beat: ${Object.keys(CLICKS).join(', ')}.`,
  },
  {
    name: 'until',
    kind: 'text',
    placeholder: 'DATE',
    example: '2026-02-08',
    about: 'The last day for which caps, ways and clicks hold; unless said, all.',
  },
  {
    name: 'warm-up',
    kind: 'text',
    placeholder: 'FILE@BPM',
    example: 'warm-up.json@60',
    about: 'An exercise of your own to warm up with, from a file as `evenhand exercises --json` writes one.',
  },
  {
    name: 'own',
    kind: 'texts',
    placeholder: 'FILE@BPM:MINUTES …',
    example: 'song.json@100:3',
    about: 'Your own music, in every session before its end.',
  },
  { name: 'pupil', kind: 'switch', example: '', about: 'For a pupil: two or three exercises a week.' },
];

/**
 * Reads what was agreed.
 * @param phrase the exercise that is meant where no id is given.
 * @param exercises among which ids are looked up.
 */
export function readAgreed(
  call: Call,
  { phrase, exercises }: { readonly phrase: Exercise; readonly exercises: readonly Exercise[] },
): { readonly agreed: Agreed; readonly problems: readonly SaidProblem[] } {
  const problems: SaidProblem[] = [];
  const { until } = call.text;
  if (until !== undefined && !isDay(until))
    problems.push(refuseOption('--until', until, { wanted: 'a day there is, as YYYY-MM-DD', example: '2026-02-08' }));
  const holds = until === undefined ? {} : { until };
  const meant = (option: string, given: string) => {
    const [value = '', id] = given.split('=').reverse();
    const found = id === undefined ? phrase : exercises.find((exercise) => id !== '' && exercise.id.startsWith(id));
    if (!found)
      problems.push(refuseOption(option, given, { wanted: 'the id of an exercise of this plan', example: `${exercises[0]?.id ?? ''}=${value}` }));
    return { value, exerciseId: found?.id ?? '' };
  };
  const caps = (call.texts.cap ?? []).map((given) => {
    const { value, exerciseId } = meant('--cap', given);
    if (!isNumber(value)) problems.push(refuseOption('--cap', given, { wanted: 'a tempo above zero', example: '80' }));
    return { exerciseId, tempoBpm: Number(value), ...holds };
  });
  const ways = (call.texts.way ?? []).map((given) => {
    const { value, exerciseId } = meant('--way', given);
    if (!Object.hasOwn(WAYS, value))
      problems.push(refuseOption('--way', given, { wanted: `one of ${Object.keys(WAYS).join(', ')}`, example: 'one-tempo' }));
    return { exerciseId, way: WAYS[value] ?? 'oneTempo', ...holds };
  });
  const clicks = (call.texts.click ?? []).map((given) => {
    const { value, exerciseId } = meant('--click', given);
    if (!Object.hasOwn(CLICKS, value))
      problems.push(refuseOption('--click', given, { wanted: `one of ${Object.keys(CLICKS).join(', ')}`, example: 'two-and-four' }));
    return { exerciseId, ...CLICKS[value], ...holds };
  });
  const warmUps = call.text['warm-up'] === undefined ? [] : [readOwn('--warm-up', call.text['warm-up'], 'warmUp')];
  const own = [...warmUps, ...(call.texts.own ?? []).map((given) => readOwn('--own', given, 'repertoire'))];
  problems.push(...own.flatMap((each) => each.problems));
  const agreed: Agreed = { caps, ways, clicks, own: own.flatMap(({ block }) => block ?? []), who: call.flag.pupil ? 'pupil' : 'player' };
  return { agreed, problems };
}

type OwnBlock = NonNullable<PlanRequest['own']>[number];

/** `song.json@100:3`: a file, a tempo, minutes. */
function readOwn(option: string, given: string, as: OwnBlock['as']): { readonly block: OwnBlock | null; readonly problems: readonly SaidProblem[] } {
  const parts = /^(.+)@([^@:]+)(?::([^@:]+))?$/.exec(given);
  const [, file = '', tempo = '', minutes] = parts ?? [];
  if (!parts || !isNumber(tempo) || (minutes === undefined ? as === 'repertoire' : !isNumber(minutes))) {
    const example = as === 'warmUp' ? 'warm-up.json@60' : 'song.json@100:3';
    const wanted = as === 'warmUp' ? 'a file and a tempo' : 'a file, a tempo and minutes';
    return { block: null, problems: [refuseOption(option, given, { wanted, example })] };
  }
  const { content, problems } = readExercise(file);
  const exercise = content && ownExercise(content, '', { family: 'use' });
  return { block: exercise && { exercise, as, tempoBpm: Number(tempo), ...(minutes ? { minutes: Number(minutes) } : {}) }, problems };
}

const isNumber = (text: string): boolean => /^(?=.*[1-9])\d{1,4}(\.\d+)?$/.test(text);
