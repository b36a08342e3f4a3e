/** A year of an invented drummer as a diary, lived as its story tells: to be read by somebody who did not live it. */
import { addDays, weekdayOf } from '../../core/src/day.ts';
import {
  type DiaryRecord,
  draftsByHand,
  editOf,
  type KnownRecord,
  type Made,
  nextStamp,
  type RecordDraft,
  writeRecord,
} from '../../core/src/diary/index.ts';
import { COMMON_TIME, contentId, type Exercise, exercisesFor, readFocus } from '../../core/src/exercise/index.ts';
import { DEFAULT_DRUMS } from '../../core/src/kit/index.ts';
import { makePlan } from '../../core/src/plan/index.ts';
import { type Random, seededRandom } from '../../core/src/random.ts';
import { readSticking } from '../../core/src/sticking/index.ts';
import { standsAt, type TempoResult } from '../../core/src/tempo/index.ts';
import { savedExercise } from '../../web/src/app/savedplan.ts';
import { playSilently } from '../../web/src/demo/playing.ts';
import type { Story, YearPhrase } from './story.ts';

const WEEKDAYS = [1, 2, 3, 4, 5, 6, 7] as const;
const PER_BEAT = 4;
const PLAN_WEEKS = 8;
const BLOCK_SEC = 180;

export interface Year {
  readonly records: readonly DiaryRecord[];
  /** Practice days. */
  readonly days: readonly string[];
}

/** @param today the day after the year. */
export function liveYear(story: Story, today: string): Year {
  const random = seededRandom(story.seed);
  const first = addDays(today, -story.days);
  const book = newBook(random, story.zone);
  const { records, write } = book;
  for (const { day, body } of story.setups) write('setup', addDays(first, day), 0, body);
  const days = story.phrases.flatMap((phrase) => livePhrase(story, phrase, { first, random, book }));
  for (const [day, text] of Object.entries(story.notes)) {
    const date = addDays(first, Number(day));
    if (!days.includes(date)) write('note', date, 20, noteOf(story, Number(day), text));
  }
  days.push(...byHand(story, first, write));
  write('setting', first, 0, { name: 'cautionsRead', value: true });
  return { records: [...records].sort((a, b) => a.made.wallMs - b.made.wallMs), days: days.sort() };
}

/** A phrase from its first day to its last. @returns its practice days. */
function livePhrase(
  story: Story,
  phrase: YearPhrase,
  { first, random, book }: { readonly first: string; readonly random: Random; readonly book: Book },
) {
  const { records, write } = book;
  const days: string[] = [];
  const lived = beginPhrase(phrase, { day: addDays(first, phrase.from), write });
  let planId = plan(story, phrase, { ...lived, day: addDays(first, phrase.from), replaces: null, write });
  for (let day = phrase.from; day < phrase.to; day++) {
    const date = addDays(first, day);
    if (story.plansAgain && day > phrase.from && (day - phrase.from) % (7 * PLAN_WEEKS) === 0)
      planId = plan(story, phrase, { ...lived, day: date, replaces: planId, write });
    if (story.away.some(({ from, to }) => day >= from && day <= to)) continue;
    // Now and then another day is free too.
    if (!story.hurt?.includes(day) && (story.freeWeekdays.includes(weekdayOf(date)) || random() < 0.12)) continue;
    days.push(date);
    liveDay(story, phrase, { ...lived, date, day, write, random });
  }
  if (phrase.ends) {
    const point = records.find(({ id }) => id === lived.pointId) as KnownRecord<'stickingPoint'>;
    const endedOn = addDays(first, phrase.to - 1);
    write('edit', endedOn, 900, editOf(point, 'state', { is: phrase.ends, day: endedOn }));
  } else write('setting', addDays(first, phrase.from), story.phrases.indexOf(phrase), { name: 'phraseAtHand', value: lived.pointId });
  return days;
}

/** What was written down by hand. @returns its days. */
function byHand({ byHand: entries, zone }: Story, first: string, write: Write): readonly string[] {
  return entries.map(({ day, minutes, note: text }) => {
    const date = addDays(first, day);
    const [session, note] = draftsByHand({ day: date, atMs: Date.parse(`${date}T17:00:00Z`), zone, minutes, note: text }, '');
    const sessionId = write('session', date, 0, session!.body);
    write('note', date, 15, { ...note!.body, sessionId });
    return date;
  });
}

const noteOf = ({ felt }: Story, day: number, text: string) => ({ text, sessionId: null, ...(felt?.[day] ? { felt: felt[day] } : {}) });

type Write = (kind: RecordDraft['kind'], day: string, minute: number, body: object) => string;

interface Book {
  readonly records: DiaryRecord[];
  readonly write: Write;
}

function newBook(random: Random, zone: string): Book {
  const newId = () => Array.from({ length: 32 }, () => Math.floor(16 * random()).toString(16)).join('');
  const [deviceId, ownerId] = [newId(), newId()];
  const records: DiaryRecord[] = [];
  let last: Made | null = null;
  const write: Write = (kind, day, minute, body) => {
    const atMs = Date.parse(`${day}T17:00:00Z`) + minute * 60_000;
    last = nextStamp(null, atMs + records.length / 1000, deviceId);
    const draft = { kind, atMs, zone, day, body } as RecordDraft;
    const record = writeRecord(draft, { id: newId(), ownerId, made: { ...last, counter: records.length } });
    records.push(record);
    return record.id;
  };
  return { records, write };
}

interface LivedPhrase {
  readonly pointId: string;
  readonly phrase: Exercise;
  readonly shelf: readonly Exercise[];
  /** What is played beside the phrase; the first plan says what. */
  readonly exercises: Exercise[];
  readonly results: Map<string, TempoResult[]>;
}

function beginPhrase({ name, sticking, cell, goalBpm }: YearPhrase, { day, write }: { readonly day: string; readonly write: Write }): LivedPhrase {
  const strokes = readSticking(sticking).value!;
  const content = {
    sticking: strokes.text,
    surfaces: strokes.strokes.map(({ limb }) => DEFAULT_DRUMS[limb]),
    perBeat: PER_BEAT,
    meter: COMMON_TIME,
  };
  const { exercises: shelf } = exercisesFor(content, readFocus(cell, strokes).value!);
  const phrase = shelf.find(({ id }) => id === contentId(content))!;
  const pointId = write('stickingPoint', day, 1, {
    ...{ name, sticking, surfaces: content.surfaces, perBeat: PER_BEAT },
    ...{ tempoBpm: goalBpm, cell },
  });
  return { pointId, phrase, shelf, exercises: [], results: new Map() };
}

interface Planned extends LivedPhrase {
  readonly day: string;
  readonly replaces: string | null;
  readonly write: Write;
}

/** A plan of some weeks from a day on. @returns its id. */
function plan(
  { sessionMinutes, freeWeekdays }: Story,
  of: YearPhrase,
  { pointId, phrase, shelf, exercises, results, day, replaces, write }: Planned,
): string {
  const played = [...results].map(([exerciseId, own]) => ({ exerciseId, tempoBpm: standsAt(own).nextTempoBpm, days: own.length }));
  const made = makePlan({
    phrase,
    goalBpm: of.goalBpm,
    exercises: shelf,
    known: played.length > 0 ? played : [{ exerciseId: phrase.id, tempoBpm: of.firstBpm, days: 1 }],
    weeks: Math.min(PLAN_WEEKS, Math.ceil((of.to - of.from) / 7)),
    days: WEEKDAYS.filter((weekday) => !freeWeekdays.includes(weekday)),
    minutes: sessionMinutes,
    start: day,
  }).value!;
  const named = new Set(made.sessions.flatMap(({ blocks }) => blocks.map(({ exerciseId }) => exerciseId)));
  const inPlan = shelf.filter(({ id }) => named.has(id));
  if (exercises.length === 0) exercises.push(...inPlan.filter(({ id }) => id !== phrase.id).slice(0, 6));
  return write('plan', day, 2, {
    ...made,
    ...{ stickingPointId: pointId, goalBpm: of.goalBpm, minutes: sessionMinutes, replaces },
    exercises: inPlan.map(savedExercise),
  });
}

interface LivedDay extends LivedPhrase {
  readonly date: string;
  /** Day of the year. */
  readonly day: number;
  readonly write: Write;
  readonly random: Random;
}

function liveDay(story: Story, of: YearPhrase, { pointId, phrase, exercises, results, date, day, write, random }: LivedDay): void {
  const hurt = story.hurt?.includes(day) ?? false;
  const sessionId = write('session', date, 5, {
    stickingPointId: pointId,
    plannedMinutes: story.sessionMinutes,
    endedAtMs: null,
    ended: hurt ? 'hurt' : 'done',
    reason: null,
  });
  const since = day - of.from;
  const others = [0, 1].map((k) => exercises[(since + 3 * k) % exercises.length]!);
  const played = [
    ...(weekdayOf(date) === 1 ? [{ exercise: phrase, reference: true }] : []),
    ...[phrase, ...(hurt ? [] : others)].map((exercise) => ({ exercise, reference: false })),
  ];
  for (const [position, block] of played.entries()) {
    const heard = playBlock(of, { ...block, day: since, isPhrase: block.exercise === phrase, results, random });
    if (heard) write('block', date, 5 + 3 * position, { sessionId, position, ...heard });
  }
  const note = story.notes[day];
  if (note !== undefined) write('note', date, 20, { ...noteOf(story, day, note), sessionId });
}

interface PlayedBlock extends Pick<LivedDay, 'results' | 'random'> {
  readonly exercise: Exercise;
  readonly reference: boolean;
  readonly isPhrase: boolean;
  /** Days since the phrase was begun. */
  readonly day: number;
}

/** What is written of a block; null when nothing of it can be measured. */
function playBlock(
  { firstBpm, goalBpm, referenceBpm, learnt, faults }: YearPhrase,
  { exercise, reference, day, isPhrase, results, random }: PlayedBlock,
) {
  const own = results.get(exercise.id) ?? [];
  const stands = own.length > 0 ? standsAt(own).nextTempoBpm : Math.round(firstBpm * (isPhrase ? 1 : 0.9));
  const tempoBpm = reference ? referenceBpm : Math.min(goalBpm, stands);
  const judged = playSilently({ content: exercise, tempoBpm, sessions: learnt(day) + (isPhrase ? 0 : 3), random, ...(faults ? { faults } : {}) });
  if (!judged) return null;
  const { measurement, findings, runs } = judged;
  if (!reference) results.set(exercise.id, [...own, { tempoBpm, clean: runs.clean, runs: runs.runs }]);
  const { trackedBpm, offsetMs, places, pairs } = measurement;
  const heard = { trackedBpm, offsetMs, places, pairs, cleanRunCount: runs.clean, runCount: runs.runs, findings, problems: [] };
  const reason = { code: reference ? 'plan-reason-reference' : 'plan-reason-phrase', params: {} };
  return { exercise: savedExercise(exercise), tempoBpm, durationSec: BLOCK_SEC, takeIds: [], heard, playerSays: null, nextTempo: null, reason };
}
