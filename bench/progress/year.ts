/** A year of an invented drummer as a diary, lived as its story tells: to be read by somebody who did not live it. */
import { addDays, daysBetween, weekdayOf } from '../../core/src/day.ts';
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
import { BACK_AFTER_HURT, closePlan, makePlan, type Plan, type PlanRequest, TOO_HARD_REST_DAYS } from '../../core/src/plan/index.ts';
import { type Random, seededRandom } from '../../core/src/random.ts';
import { readSticking } from '../../core/src/sticking/index.ts';
import { standsAt, type TempoResult } from '../../core/src/tempo/index.ts';
import { equalSpeedBpm } from '../../core/src/units.ts';
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
  let planned = plan(story, phrase, { ...lived, day: addDays(first, phrase.from), replaces: null, write });
  for (let day = phrase.from; day < phrase.to; day++) {
    const date = addDays(first, day);
    if (story.plansAgain && day > phrase.from && (day - phrase.from) % (7 * PLAN_WEEKS) === 0)
      planned = plan(story, phrase, { ...lived, day: date, replaces: planned.id, write });
    if (story.away.some(({ from, to }) => day >= from && day <= to)) continue;
    // Now and then another day is free too.
    if (!story.hurt?.includes(day) && (story.freeWeekdays.includes(weekdayOf(date)) || random() < 0.12)) continue;
    days.push(date);
    liveDay(story, phrase, { ...lived, planned, date, day, sinceHurt: sinceHurt(story, first, { day, days }), write, random });
  }
  if (phrase.ends) {
    const point = records.find(({ id }) => id === lived.pointId) as KnownRecord<'stickingPoint'>;
    const endedOn = addDays(first, phrase.to - 1);
    write('edit', endedOn, 900, editOf(point, 'state', { is: phrase.ends, day: endedOn }));
    if (phrase.ends === 'closed' && story.followsPlan) {
      const closed = closePlan(planned.made, planned.request, { done: days, today: endedOn, planId: planned.id }).plan;
      write('plan', endedOn, 901, planBody(story, phrase, { ...lived, made: closed, replaces: planned.id }));
    }
  } else write('setting', addDays(first, phrase.from), story.phrases.indexOf(phrase), { name: 'phraseAtHand', value: lived.pointId });
  return days;
}

/** Days of practice of the phrase since something hurt; undefined when nothing did. */
function sinceHurt(
  { hurt = [] }: Story,
  first: string,
  { day, days }: { readonly day: number; readonly days: readonly string[] },
): number | undefined {
  const last = hurt.filter((one) => one < day).at(-1);
  return last === undefined ? undefined : days.filter((date) => date > addDays(first, last) && date < addDays(first, day)).length;
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
  readonly results: Map<string, DayResult[]>;
}

type DayResult = TempoResult & { readonly day: string };

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

interface MadePlan {
  readonly id: string;
  readonly made: Plan;
  readonly request: PlanRequest;
}

/** A plan of some weeks from a day on. */
function plan(story: Story, of: YearPhrase, { pointId, phrase, shelf, exercises, results, day, replaces, write }: Planned): MadePlan {
  const { sessionMinutes, freeWeekdays } = story;
  const played = [...results].map(([exerciseId, own]) => ({ exerciseId, tempoBpm: standsAt(own).nextTempoBpm, days: own.length }));
  const request: PlanRequest = {
    phrase,
    goalBpm: of.goalBpm,
    exercises: shelf,
    known: played.length > 0 ? played : [{ exerciseId: phrase.id, tempoBpm: of.firstBpm, days: 1 }],
    weeks: Math.min(PLAN_WEEKS, Math.ceil((of.to - of.from) / 7)),
    days: WEEKDAYS.filter((weekday) => !freeWeekdays.includes(weekday)),
    minutes: sessionMinutes,
    start: day,
  };
  const made = makePlan(request).value!;
  if (exercises.length === 0)
    exercises.push(
      ...namedIn(made, shelf)
        .filter(({ id }) => id !== phrase.id)
        .slice(0, 6),
    );
  return { id: write('plan', day, 2, planBody(story, of, { pointId, shelf, made, replaces })), made, request };
}

function namedIn({ sessions }: Plan, shelf: readonly Exercise[]): readonly Exercise[] {
  const named = new Set(sessions.flatMap(({ blocks }) => blocks.map(({ exerciseId }) => exerciseId)));
  return shelf.filter(({ id }) => named.has(id));
}

const planBody = (
  { sessionMinutes }: Story,
  of: YearPhrase,
  { pointId, shelf, made, replaces }: Pick<Planned, 'pointId' | 'shelf' | 'replaces'> & { readonly made: Plan },
) => ({
  ...made,
  ...{ stickingPointId: pointId, goalBpm: of.goalBpm, minutes: sessionMinutes, replaces },
  exercises: namedIn(made, shelf).map(savedExercise),
});

interface LivedDay extends LivedPhrase {
  readonly planned: MadePlan;
  readonly sinceHurt: number | undefined;
  readonly date: string;
  /** Day of the year. */
  readonly day: number;
  readonly write: Write;
  readonly random: Random;
}

function liveDay(story: Story, of: YearPhrase, lived: LivedDay): void {
  const { pointId, phrase, exercises, results, date, day, write, random } = lived;
  const hurt = story.hurt?.includes(day) ?? false;
  const sessionId = write('session', date, 5, {
    stickingPointId: pointId,
    plannedMinutes: story.sessionMinutes,
    endedAtMs: null,
    ended: hurt ? 'hurt' : 'done',
    reason: null,
  });
  const since = day - of.from;
  const others = story.followsPlan ? ofPlan(lived) : [0, 1].map((k) => exercises[(since + 3 * k) % exercises.length]!);
  const slowly = (story.followsPlan && lived.sinceHurt !== undefined && BACK_AFTER_HURT[lived.sinceHurt]) || 1;
  const played = [
    ...(weekdayOf(date) === 1 && slowly === 1 ? [{ exercise: phrase, reference: true }] : []),
    ...[phrase, ...(hurt ? [] : others)].map((exercise) => ({ exercise, reference: false })),
  ];
  for (const [position, block] of played.entries()) {
    const heard = playBlock(of, { ...block, day: since, date, slowly, isPhrase: block.exercise === phrase, results, random });
    if (heard) write('block', date, 5 + 3 * position, { sessionId, position, ...heard });
  }
  const note = story.notes[day];
  if (note !== undefined) write('note', date, 20, { ...noteOf(story, day, note), sessionId });
}

/** Two exercises that the plan has for the day, or had last; what is too hard rests, and another of the plan takes its place. */
function ofPlan({ planned, phrase, shelf, results, date }: LivedDay): readonly Exercise[] {
  const session = planned.made.sessions.filter((one) => one.date <= date).at(-1) ?? planned.made.sessions[0]!;
  const wanted = session.blocks.filter(({ part }) => part === 'work' || part === 'use').map(({ exerciseId }) => exerciseId);
  const all = [...new Set([...wanted, ...namedIn(planned.made, shelf).map(({ id }) => id)])].filter(
    (id) => id !== phrase.id && !rests(results.get(id), date),
  );
  return all.slice(0, 2).map((id) => shelf.find((exercise) => exercise.id === id)!);
}

const rests = (own: readonly DayResult[] | undefined, date: string): boolean =>
  own !== undefined && standsAt(own).reason.code === 'tempo-too-hard' && daysBetween(own.at(-1)!.day, date) < TOO_HARD_REST_DAYS;

interface PlayedBlock extends Pick<LivedDay, 'results' | 'random'> {
  readonly exercise: Exercise;
  readonly reference: boolean;
  readonly isPhrase: boolean;
  readonly date: string;
  /** Share of the tempo, 1 for all of it. */
  readonly slowly: number;
  /** Days since the phrase was begun. */
  readonly day: number;
}

/** What is written of a block; null when nothing of it can be measured. */
function playBlock(
  { firstBpm, goalBpm, referenceBpm, learnt, faults }: YearPhrase,
  { exercise, reference, day, date, slowly, isPhrase, results, random }: PlayedBlock,
) {
  const own = results.get(exercise.id) ?? [];
  const stands = own.length > 0 ? standsAt(own).nextTempoBpm : Math.round(equalSpeedBpm(firstBpm * (isPhrase ? 1 : 0.9), PER_BEAT, exercise.perBeat));
  const wantedBpm = Math.floor(equalSpeedBpm(goalBpm, PER_BEAT, exercise.perBeat));
  const tempoBpm = reference ? referenceBpm : Math.floor(slowly * Math.min(wantedBpm, stands));
  const judged = playSilently({ content: exercise, tempoBpm, sessions: learnt(day) + (isPhrase ? 0 : 3), random, ...(faults ? { faults } : {}) });
  if (!judged) return null;
  const { measurement, findings, runs } = judged;
  const now = [...own, { day: date, tempoBpm, clean: runs.clean, runs: runs.runs }];
  if (!reference) results.set(exercise.id, now);
  const next = reference ? null : standsAt(now);
  const { trackedBpm, offsetMs, places, pairs } = measurement;
  const heard = { trackedBpm, offsetMs, places, pairs, cleanRunCount: runs.clean, runCount: runs.runs, findings, problems: [] };
  const reason = { code: reference ? 'plan-reason-reference' : 'plan-reason-phrase', params: {} };
  return {
    exercise: savedExercise(exercise),
    tempoBpm,
    durationSec: BLOCK_SEC,
    takeIds: [],
    heard,
    playerSays: null,
    nextTempo: next && { tempoBpm: next.nextTempoBpm, reason: next.reason },
    reason,
  };
}
