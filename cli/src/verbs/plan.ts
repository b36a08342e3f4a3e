/** `plan`: some weeks of short sessions for a phrase; and what becomes of them when days are missed. */
import { isDay } from '@evenhand/core/diary';
import { contentId, defaultFocus, type Exercise, exercisesFor, readFocus } from '@evenhand/core/exercise';
import { assumedGoalBpm, makePlan, type Plan, type PlanChange, type PlanRequest, refit, withClosing } from '@evenhand/core/plan';
import { readSticking } from '@evenhand/core/sticking';
import { type SaidProblem, say, sayProblem } from '@evenhand/core/words';
import type { ExitCode, Outcome } from '../outcome.ts';
import { phraseOptions, type ReadPhrase, readPhrase, surfacesOption } from '../phrase.ts';
import { agreedOptions, readAgreed } from '../plan-agreed.ts';
import { closingOption, readClosing } from '../plan-closing.ts';
import { type PlanFile, readPlanFile, type WrittenSession, writtenSession } from '../plan-file.ts';
import { asksForLife, lifeOptions, live } from '../plan-life.ts';
import { planLines } from '../plan-lines.ts';
import { doubt, refuse, refuseOption } from '../problems.ts';
import { playedOption, readReach } from '../reach.ts';
import { type Call, type OptionSpec, typed, type Verb } from '../verb.ts';
import { jsonOfExercise } from './exercises.ts';

const format = 'plan/1';
const empty = { phrase: null, goalBpm: null, weekdays: [], away: [], replaces: null, sessions: [], changes: [], exercises: [] };

/** What a new plan cannot do without; a plan from a file has it already. */
const needed: readonly OptionSpec[] = [
  ...phraseOptions,
  { name: 'weeks', kind: 'whole', placeholder: 'N', example: '5', about: 'How many weeks.' },
  { name: 'days', kind: 'whole', placeholder: 'N', example: '5', about: 'How many days a week.' },
  { name: 'minutes', kind: 'number', placeholder: 'N', example: '12', about: 'How many minutes a day.' },
  { name: 'start', kind: 'text', placeholder: 'DATE', example: '2026-02-02', about: 'The first day, as YYYY-MM-DD.' },
];

export const plan: Verb = {
  name: 'plan',
  format,
  summary: 'Plans some weeks of short sessions, each block with its aim and reason.',
  about:
    'Plans some weeks of short sessions for a phrase: what, how long, at what tempo, towards what, and why. With --from it reads a plan that it printed with --json and moves the sessions of missed days on; weeks, days and minutes then stay as they were planned. Caps, ways of work and your own blocks are said when a plan is made; --day, --closed and --opened speak of one from a file.',
  takesFile: false,
  options: [
    ...needed.map((option) => ({ ...option, required: false })),
    surfacesOption,
    {
      name: 'cell',
      kind: 'span',
      placeholder: 'A-B',
      example: '5-6',
      about: 'The strokes that fail, counted from 1; unless said, the first double.',
    },
    { name: 'tempo', kind: 'number', placeholder: 'BPM', example: '72', about: 'The tempo at which the phrase holds now, if you know it.' },
    {
      name: 'goal',
      kind: 'number',
      placeholder: 'BPM',
      example: '96',
      about: 'The tempo it is wanted at; unless said, sixteenths at 90 and what is as fast.',
    },
    playedOption,
    { name: 'from', kind: 'text', placeholder: 'PLAN.json', example: 'plan.json', about: 'A plan that was printed with --json.' },
    { name: 'missed', kind: 'texts', placeholder: 'DATE …', example: '2026-02-04', about: 'Days of that plan on which there was no session.' },
    closingOption,
    ...agreedOptions,
    ...lifeOptions,
  ],
  example: 'evenhand plan --sticking "RLRLKK" --per-beat 4 --weeks 5 --days 5 --minutes 12 --start 2026-02-02',
  empty,
  run: (call) => (call.text.from === undefined ? planAnew(call) : moveOn(call, call.text.from)),
};

function planAnew(call: Call): Outcome {
  const missing = needed.filter(({ name }) => call.text[name] === undefined && call.number[name] === undefined);
  const wrong = missing.map((option) => refuse('call-option-missing', { option: typed(option), example: `${typed(option)} ${option.example}` }));
  if (call.texts.missed || asksForLife(call)) wrong.push(refuse('call-missed-without-plan', {}));
  if (wrong.length > 0) return failed(2, wrong);
  const { phrase, problems, pointed } = readPhrase(call);
  if (!phrase) return failed(2, problems, pointed);
  const focus = call.span.cell ? readFocus(call.span.cell, phrase.sticking) : { value: defaultFocus(phrase.sticking), problems: [] };
  if (!focus.value) return failed(2, [...problems, ...focus.problems.map((problem) => sayProblem(problem))], pointed);
  const reached = readReach(call);
  if (reached.problems.length > 0) return failed(1, [...problems, ...reached.problems], pointed);
  const goalBpm = call.number.goal ?? assumedGoalBpm(phrase.content.perBeat);
  const shelf = exercisesFor(phrase.content, focus.value, { at: { tempoBpm: goalBpm, reach: reached.reach } });
  const asked = requestOf(call, shelf.exercises, { phraseId: contentId(phrase.content), goalBpm });
  const agreement = readAgreed(call, asked);
  const chosen = readClosing(call, asked.exercises);
  const refused = [...agreement.problems, ...chosen.problems];
  if (refused.length > 0) return failed(2, [...problems, ...refused], pointed);
  const own = agreement.agreed.own?.map(({ exercise }) => exercise) ?? [];
  const request = { ...asked, ...agreement.agreed, ...(chosen.closing ? { closing: chosen.closing } : {}) };
  const made = makePlan(request);
  const all = [...problems, ...made.problems.map((problem) => sayProblem(problem))];
  if (!made.value) return failed(2, all, pointed);
  const known = [...request.exercises, ...own];
  const sessions = made.value.sessions.map((session) => writtenSession(session, known));
  const { sticking, surfaces, perBeat, meter } = request.phrase;
  return done(made.value, {
    head: { phrase: { sticking, surfaces, perBeat, meter }, goalBpm: request.goalBpm },
    sessions,
    exercises: usedIn(sessions, known).map(jsonOfExercise),
    changes: [],
    problems: all,
    pointed,
  });
}

function requestOf(
  { number, text }: Call,
  exercises: readonly Exercise[],
  { phraseId, goalBpm }: { readonly phraseId: string; readonly goalBpm: number },
): PlanRequest {
  const phrase = exercises.find(({ id }) => id === phraseId)!;
  const { tempo } = number;
  return {
    phrase,
    goalBpm,
    exercises,
    ...(tempo === undefined ? {} : { known: [{ exerciseId: phraseId, tempoBpm: tempo, days: 1 }] }),
    weeks: number.weeks!,
    days: number.days!,
    minutes: number.minutes!,
    start: text.start!,
  };
}

function usedIn(sessions: readonly WrittenSession[], exercises: readonly Exercise[]): readonly Exercise[] {
  const used = new Set(sessions.flatMap(({ blocks }) => blocks.map(({ exerciseId }) => exerciseId)));
  return exercises.filter(({ id }) => used.has(id));
}

/** Moves the sessions of missed days on; what is past stays as it was written. */
function moveOn(call: Call, file: string): Outcome {
  const { missed = [] } = call.texts;
  const wrong = missed.filter((day) => !isDay(day)).map(notADay);
  if (wrong.length > 0) return failed(2, wrong);
  const read = readPlanFile(file);
  if (!read.value) return failed(1, read.problems);
  const { closing, problems } = readClosing(call, read.value.exercises);
  if (problems.length > 0) return failed(2, problems);
  const chosen = closing ? { ...read.value, plan: withClosing(read.value.plan, closing) } : read.value;
  if (asksForLife(call)) return afterLife(call, chosen);
  const { plan: before, phrase, goalBpm, exercises } = chosen;
  const planned = new Set([...before.away, ...before.sessions.map(({ date }) => date)]);
  const unplanned = missed.filter((day) => !planned.has(day)).map((day) => doubt('plan-missed-not-planned', { day }));
  const { plan: after, changes } = refit(before, { missed: missed.filter((day) => planned.has(day)) });
  return done(after, {
    head: { phrase: phrase ?? null, goalBpm: goalBpm ?? null },
    sessions: after.sessions.map((session) => writtenSession(session, [])),
    exercises,
    changes,
    problems: [...otherPhrase(call, phrase), ...unplanned],
  });
}

/** One day of it, or the plan after its phrase was closed or opened again. */
function afterLife(call: Call, file: PlanFile): Outcome {
  const { plan: after, changes, problems, exercises: more = [] } = live(call, file);
  if (!after) return failed(1, problems);
  const titles = [...(file.exercises as readonly Exercise[]), ...more];
  return done(after, {
    head: { phrase: file.phrase ?? null, goalBpm: file.goalBpm ?? null },
    sessions: after.sessions.map((session) => writtenSession(session, titles)),
    exercises: [...file.exercises, ...more.map(jsonOfExercise)],
    changes,
    problems: [],
  });
}

const notADay = (given: string): SaidProblem => refuseOption('--missed', given, { wanted: 'a day there is, as YYYY-MM-DD', example: '2026-02-04' });

/** A phrase that was typed beside a plan for another one. */
function otherPhrase({ text }: Call, phrase: { readonly sticking: string } | undefined): SaidProblem[] {
  if (text.sticking === undefined || !phrase) return [];
  const given = readSticking(text.sticking).value?.text ?? text.sticking;
  return given === phrase.sticking ? [] : [doubt('plan-other-phrase', { given, planned: phrase.sticking })];
}

interface Done {
  readonly head: { readonly phrase: unknown; readonly goalBpm: unknown };
  readonly sessions: readonly WrittenSession[];
  readonly exercises: readonly unknown[];
  readonly changes: readonly PlanChange[];
  readonly problems: readonly SaidProblem[];
  readonly pointed?: ReadPhrase['pointed'];
}

function done({ weekdays, away, replaces, closing }: Plan, { head, sessions, exercises, changes, problems, pointed }: Done): Outcome {
  const said = changes.map((change) => ({ ...change, text: say(change) }));
  return {
    exit: 0,
    json: { format, ...head, weekdays, away, replaces, ...(closing ? { closing } : {}), sessions, changes: said, exercises, problems },
    lines: [
      ...said.map(({ text }) => text),
      ...(closing ? [say({ code: 'plan-closing', params: { families: closing } })] : []),
      ...planLines(sessions),
    ],
    ...(pointed ? { pointed } : {}),
  };
}

const failed = (exit: ExitCode, problems: readonly SaidProblem[], pointed?: ReadPhrase['pointed']): Outcome => ({
  exit,
  json: { format, ...empty, problems },
  lines: [],
  ...(pointed ? { pointed } : {}),
});
