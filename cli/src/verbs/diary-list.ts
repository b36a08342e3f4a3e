/** `diary list`: what was practised, day by day. */
import { type BlockBody, type DiaryDay, type DiaryView, fold, isByHand, type KnownRecord, type SessionEntry } from '@evenhand/core/diary';
import {
  type CourseStatement,
  firstAndLastTempo,
  restsOn,
  resultsOf,
  tempoCourse,
  type WeekTempo,
  type WorkedOn,
  workedOn,
} from '@evenhand/core/progress';
import { say } from '@evenhand/core/words';
import { entryCountOf, takeCountOf } from '../counts.ts';
import { readDiary } from '../diary-folder/folder.ts';
import type { Outcome } from '../outcome.ts';
import { doubt } from '../problems.ts';
import type { Call, Verb } from '../verb.ts';
import { inOption, notDone } from './diary-options.ts';

export const diaryList: Verb = {
  name: 'diary list',
  format: 'diary-list/1',
  summary: 'Lists what was practised, day by day.',
  about:
    'Lists what was practised, the latest day first: sessions with their exercises, and notes. Below, each phrase with its days, minutes and clean tempo, and its course as far as the results carry it.',
  takesFile: false,
  options: [inOption],
  example: 'evenhand diary list --in ~/diary',
  empty: { phrases: [], days: [], recordCount: 0, takeCount: 0, notShownCount: 0 },
  run: (call) => list(call),
};

function list(call: Call): Outcome {
  const diary = readDiary(call.text.in!);
  if (diary.problem) return notDone(diaryList, [diary.problem]);
  const { records, takeIds } = diary.value;
  const view = fold(records);
  const { days, notShownCount } = view;
  const phrases = phrasesOf(view);
  const newer = notShownCount > 0 ? [doubt('diary-newer-records', { recordCount: notShownCount })] : [];
  const facts = { recordCount: records.length, takeCount: takeIds.length, notShownCount };
  return {
    exit: 0,
    json: {
      format: diaryList.format,
      phrases: phrases.map(jsonOfPhrase),
      days: days.map(jsonOfDay),
      ...facts,
      problems: [...diary.value.problems, ...newer],
    },
    lines: [...days.flatMap(linesOfDay), ...phrases.flatMap(linesOfPhrase), `${entryCountOf(records.length)}, ${takeCountOf(takeIds.length)}.`],
  };
}

/** A phrase with the course of its clean tempo. */
interface PhraseTold extends WorkedOn {
  readonly course: readonly CourseStatement[];
  readonly first: WeekTempo | null;
  readonly last: WeekTempo | null;
}

function phrasesOf(view: DiaryView): readonly PhraseTold[] {
  const results = resultsOf(view);
  return workedOn(view, results).map((phrase) => {
    const id = phrase.exerciseId;
    if (id === null) return { ...phrase, course: [], first: null, last: null };
    const [first, last] = firstAndLastTempo(results, id);
    return { ...phrase, course: tempoCourse(results, { id, perBeat: phrase.perBeat }).said, first, last };
  });
}

const rounded = (bpm: number): number => Math.round(10 * bpm) / 10;
const jsonOfTempo = (told: WeekTempo | null) =>
  told && { weekFrom: told.from, tempoBpm: rounded(told.bpm), low90: rounded(told.lowBpm), high90: rounded(told.highBpm) };

const jsonOfPhrase = ({ stickingPointId, name, sticking, perBeat, wantedBpm, state, from, to, days, minutes, ...told }: PhraseTold) => ({
  ...{ stickingPointId, name, sticking, perBeat, wantedBpm, state, from, to, dayCount: days, minutes: rounded(minutes) },
  first: jsonOfTempo(told.first),
  last: jsonOfTempo(told.last),
  course: told.course.map((said) => ({ code: said.code, text: say(said), params: said.params, restsOn: say(restsOn(said)) })),
});

const linesOfPhrase = ({ name, from, to, days, minutes, course }: PhraseTold): string[] => [
  printable(`${name}: ${days} days from ${from} to ${to}, ${Math.round(minutes)} min`),
  ...course.map((said) => `    ${say(said)}`),
  '',
];

const minutesOf = (playedSec: number): number => Math.round(playedSec / 6) / 10;

const jsonOfDay = ({ day, playedSec, sessions, notes }: DiaryDay) => ({
  day,
  minutes: minutesOf(playedSec),
  sessions: sessions.map(jsonOfSession),
  notes: notes.map(({ id, body }) => ({ id, text: body.text, sessionId: body.sessionId })),
});

const jsonOfSession = ({ session, blocks, takes, playedSec }: SessionEntry) => ({
  id: session.id,
  minutes: minutesOf(playedSec),
  plannedMinutes: session.body.plannedMinutes,
  ended: session.body.ended,
  byHand: isByHand(session),
  takeCount: takes.length,
  blocks: blocks.map(({ body }) => ({
    exerciseId: body.exercise.id,
    title: say(body.exercise.title),
    sticking: body.exercise.sticking,
    tempoBpm: body.tempoBpm,
    ...(body.stretches ? { stretches: body.stretches } : {}),
    minutes: minutesOf(body.durationSec),
    cleanRunCount: body.heard?.cleanRunCount ?? null,
    runCount: body.heard?.runCount ?? null,
    playerSays: body.playerSays,
  })),
});

function linesOfDay({ day, playedSec, sessions, notes }: DiaryDay): string[] {
  const rows = [
    ...sessions.flatMap((entry) => (isByHand(entry.session) ? ['written down by hand'] : entry.blocks.map(lineOfBlock))),
    ...notes.flatMap(({ body }) => body.text.split('\n').map(printable)),
  ];
  return [`${day}   ${minutesOf(playedSec)} min`, ...rows.map((row) => `    ${row}`), ''];
}

function lineOfBlock({ body }: KnownRecord<'block'>): string {
  const runs = body.heard ? `, ${body.heard.cleanRunCount} of ${body.heard.runCount} runs clean` : '';
  return printable(`${body.exercise.sticking} at ${temposOf(body).join(', ')}, ${minutesOf(body.durationSec)} min${runs}`);
}

const temposOf = ({ tempoBpm, stretches }: BlockBody): readonly number[] => (stretches?.length ? stretches.map((one) => one.tempoBpm) : [tempoBpm]);

/** Text of a diary that came from elsewhere may hold orders for a terminal; they are left out. */
const printable = (text: string): string => text.replace(/\p{Cc}/gu, '');
