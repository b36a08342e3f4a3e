/** A year of an invented theatre-pit drummer as a diary, and what truly happened in it: to be read by somebody who did not live it. */
import { addDays, weekdayOf } from '../../core/src/day.ts';
import {
  type DiaryRecord,
  draftsByHand,
  editOf,
  type KnownRecord,
  type Made,
  nextStamp,
  type RecordDraft,
  type SetupBody,
  writeRecord,
} from '../../core/src/diary/index.ts';
import { COMMON_TIME, contentId, type Exercise, exercisesFor, readFocus } from '../../core/src/exercise/index.ts';
import { DEFAULT_DRUMS } from '../../core/src/kit/index.ts';
import { makePlan } from '../../core/src/plan/index.ts';
import { seededRandom } from '../../core/src/random.ts';
import { readSticking } from '../../core/src/sticking/index.ts';
import { standsAt, type TempoResult } from '../../core/src/tempo/index.ts';
import { savedExercise } from '../../web/src/app/savedplan.ts';
import { playSilently } from '../../web/src/demo/playing.ts';

const SEED = 20_261_125;
const YEAR_DAYS = 364;
const SESSION_MINUTES = 12;
const BLOCK_SEC = 180;

/** A phrase of the year: from which day to which, and how many sessions' worth of learning lie behind on a day, counted from its first. */
interface YearPhrase {
  readonly name: string;
  readonly sticking: string;
  readonly cell: { readonly first: number; readonly last: number };
  readonly goalBpm: number;
  readonly firstBpm: number;
  readonly referenceBpm: number;
  readonly from: number;
  readonly to: number;
  readonly closed: boolean;
  readonly learnt: (day: number) => number;
}

/** Days from the first: the truth that a reader is held against. */
const PHRASES: readonly YearPhrase[] = [
  {
    ...{ name: 'The storm in number eleven', sticking: 'RLRLKK', cell: { first: 4, last: 5 } },
    ...{ goalBpm: 104, firstBpm: 70, referenceBpm: 84, from: 0, to: 178, closed: true },
    learnt: (day) => 34 * (1 - Math.exp(-day / 70)),
  },
  {
    ...{ name: 'Street fight, last eight', sticking: 'RLKKRLRL', cell: { first: 2, last: 3 } },
    ...{ goalBpm: 116, firstBpm: 74, referenceBpm: 88, from: 190, to: YEAR_DAYS, closed: false },
    learnt: (day) => (day < 50 ? day / 6 : day < 112 ? 50 / 6 : 21),
  },
];
/** Away: ill, the holidays, on tour without a kit; from and to, both included. */
const AWAY = [
  { from: 30, to: 38, why: 'holidays' },
  { from: 67, to: 80, why: 'ill' },
  { from: 232, to: 252, why: 'on tour' },
] as const;
/** Played on tour without the tool, and written down by hand. */
const BY_HAND = [238, 245];
const SETUPS: readonly { readonly day: number; readonly body: SetupBody }[] = [
  {
    day: 0,
    body: {
      sticks: 'hickory, the thin pair',
      drums: 'the small kit of the pit',
      pedal: 'single pedal, felt beater',
      heel: 'up',
      phonePlace: 'on the stand, left',
    },
  },
  {
    day: 110,
    body: {
      sticks: 'maple, a little longer',
      drums: 'the small kit of the pit',
      pedal: 'single pedal, felt beater',
      heel: 'up',
      phonePlace: 'on the stand, left',
    },
  },
  {
    day: 301,
    body: {
      sticks: 'maple, a little longer',
      drums: 'the small kit of the pit',
      pedal: 'the new pedal, wood beater',
      heel: 'up',
      phonePlace: 'on the stand, left',
    },
  },
];
const NOTES: Readonly<Record<number, string>> = {
  0: 'The storm falls apart from the second bar on. Let us see.',
  29: 'Last show before the holidays. Calm.',
  81: 'First time up after the flu. Slow and short, that will do.',
  110: 'Longer sticks. Odd in the left hand.',
  171: 'It held in the show, three nights running.',
  190: 'New piece, new trouble: two kicks in the middle of the street fight.',
  253: 'Home from the tour. Pads in hotel rooms are no kit.',
  301: 'New pedal. The beater comes back by itself.',
};

export interface Year {
  readonly records: readonly DiaryRecord[];
  /** Practice days. */
  readonly days: readonly string[];
}

/** @param today the day after the year. */
export function liveYear(today: string): Year {
  const random = seededRandom(SEED);
  const first = addDays(today, -YEAR_DAYS);
  const { records, write } = newBook(random);
  const days: string[] = [];
  for (const { day, body } of SETUPS) write('setup', addDays(first, day), 0, body);
  for (const [number, phrase] of PHRASES.entries()) {
    const lived = beginPhrase(phrase, { day: addDays(first, phrase.from), write });
    for (let day = phrase.from; day < phrase.to; day++) {
      const date = addDays(first, day);
      if (AWAY.some(({ from, to }) => day >= from && day <= to)) continue;
      // Four or five days a week: Sunday is free, and now and then another.
      if (weekdayOf(date) === 7 || weekdayOf(date) === 3 || random() < 0.12) continue;
      days.push(date);
      liveDay(phrase, { ...lived, date, day: day - phrase.from, note: NOTES[day] ?? null, write, random });
    }
    if (phrase.closed) {
      const point = records.find(({ id }) => id === lived.pointId) as KnownRecord<'stickingPoint'>;
      const closedOn = addDays(first, phrase.to - 1);
      write('edit', closedOn, 900, editOf(point, 'state', { is: 'closed', day: closedOn }));
    } else write('setting', addDays(first, phrase.from), number, { name: 'phraseAtHand', value: lived.pointId });
  }
  for (const day of BY_HAND) {
    const date = addDays(first, day);
    days.push(date);
    const atMs = Date.parse(`${date}T17:00:00Z`);
    const [session, note] = draftsByHand({ day: date, atMs, zone: 'Europe/Berlin', minutes: 15, note: 'Pad in the hotel, doubles.' }, '');
    const sessionId = write('session', date, 0, session!.body);
    write('note', date, 15, { ...note!.body, sessionId });
  }
  write('setting', first, 0, { name: 'cautionsRead', value: true });
  return { records: [...records].sort((a, b) => a.made.wallMs - b.made.wallMs), days: days.sort() };
}

type Write = (kind: RecordDraft['kind'], day: string, minute: number, body: object) => string;

function newBook(random: () => number): { readonly records: DiaryRecord[]; readonly write: Write } {
  const newId = () => Array.from({ length: 32 }, () => Math.floor(16 * random()).toString(16)).join('');
  const [deviceId, ownerId] = [newId(), newId()];
  const records: DiaryRecord[] = [];
  let last: Made | null = null;
  const write: Write = (kind, day, minute, body) => {
    const atMs = Date.parse(`${day}T17:00:00Z`) + minute * 60_000;
    last = nextStamp(null, atMs + records.length / 1000, deviceId);
    const draft = { kind, atMs, zone: 'Europe/Berlin', day, body } as RecordDraft;
    const record = writeRecord(draft, { id: newId(), ownerId, made: { ...last, counter: records.length } });
    records.push(record);
    return record.id;
  };
  return { records, write };
}

interface LivedPhrase {
  readonly pointId: string;
  readonly phrase: Exercise;
  readonly exercises: readonly Exercise[];
  readonly results: Map<string, TempoResult[]>;
}

function beginPhrase(
  { name, sticking, cell, goalBpm, firstBpm, from, to }: YearPhrase,
  { day, write }: { readonly day: string; readonly write: Write },
): LivedPhrase {
  const strokes = readSticking(sticking).value!;
  const content = { sticking: strokes.text, surfaces: strokes.strokes.map(({ limb }) => DEFAULT_DRUMS[limb]), perBeat: 4, meter: COMMON_TIME };
  const { exercises: shelf } = exercisesFor(content, readFocus(cell, strokes).value!);
  const phrase = shelf.find(({ id }) => id === contentId(content))!;
  const pointId = write('stickingPoint', day, 1, { name, sticking, surfaces: content.surfaces, perBeat: 4, tempoBpm: goalBpm, cell });
  const known = [{ exerciseId: phrase.id, tempoBpm: firstBpm, days: 1 }];
  const plan = makePlan({
    phrase,
    goalBpm,
    exercises: shelf,
    known,
    weeks: Math.min(8, Math.ceil((to - from) / 7)),
    days: 5,
    minutes: SESSION_MINUTES,
    start: day,
  }).value!;
  const named = new Set(plan.sessions.flatMap(({ blocks }) => blocks.map(({ exerciseId }) => exerciseId)));
  const exercises = shelf.filter(({ id }) => named.has(id));
  write('plan', day, 2, {
    stickingPointId: pointId,
    goalBpm,
    minutes: SESSION_MINUTES,
    replaces: null,
    ...plan,
    exercises: exercises.map(savedExercise),
  });
  return { pointId, phrase, exercises: exercises.filter(({ id }) => id !== phrase.id).slice(0, 6), results: new Map() };
}

interface LivedDay extends LivedPhrase {
  readonly date: string;
  /** Days since the phrase was begun. */
  readonly day: number;
  readonly note: string | null;
  readonly write: Write;
  readonly random: () => number;
}

function liveDay(of: YearPhrase, { pointId, phrase, exercises, results, date, day, note, write, random }: LivedDay): void {
  const sessionId = write('session', date, 5, {
    stickingPointId: pointId,
    plannedMinutes: SESSION_MINUTES,
    endedAtMs: null,
    ended: 'done',
    reason: null,
  });
  const others = [0, 1].map((k) => exercises[(day + 3 * k) % exercises.length]!);
  const played = [
    ...(weekdayOf(date) === 1 ? [{ exercise: phrase, reference: true }] : []),
    ...[phrase, ...others].map((exercise) => ({ exercise, reference: false })),
  ];
  for (const [position, block] of played.entries()) {
    const heard = playBlock(of, { ...block, day, isPhrase: block.exercise === phrase, results, random });
    if (heard) write('block', date, 5 + 3 * position, { sessionId, position, ...heard });
  }
  if (note !== null) write('note', date, 20, { text: note, sessionId });
}

interface PlayedBlock extends Pick<LivedDay, 'day' | 'results' | 'random'> {
  readonly exercise: Exercise;
  readonly reference: boolean;
  readonly isPhrase: boolean;
}

/** What is written of a block; null when nothing of it can be measured. */
function playBlock({ firstBpm, goalBpm, referenceBpm, learnt }: YearPhrase, { exercise, reference, day, isPhrase, results, random }: PlayedBlock) {
  const own = results.get(exercise.id) ?? [];
  const stands = own.length > 0 ? standsAt(own).nextTempoBpm : Math.round(firstBpm * (isPhrase ? 1 : 0.9));
  const tempoBpm = reference ? referenceBpm : Math.min(goalBpm, stands);
  const judged = playSilently({ content: exercise, tempoBpm, sessions: learnt(day) + (isPhrase ? 0 : 3), random });
  if (!judged) return null;
  const { measurement, findings, runs } = judged;
  if (!reference) results.set(exercise.id, [...own, { tempoBpm, clean: runs.clean, runs: runs.runs }]);
  const { trackedBpm, offsetMs, places, pairs } = measurement;
  const heard = { trackedBpm, offsetMs, places, pairs, cleanRunCount: runs.clean, runCount: runs.runs, findings, problems: [] };
  const reason = { code: reference ? 'plan-reason-reference' : 'plan-reason-phrase', params: {} };
  return { exercise: savedExercise(exercise), tempoBpm, durationSec: BLOCK_SEC, takeIds: [], heard, playerSays: null, nextTempo: null, reason };
}
