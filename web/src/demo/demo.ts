/** The demo's diary: ten sessions of a plan, lived day by day by the simulated drummer; every figure comes of playing, hearing and measuring. */
import { addDays } from '@evenhand/core/day';
import {
  type BlockBody,
  type DiaryRecord,
  type Made,
  nextStamp,
  type RecordDraft,
  type SavedExercise,
  type SavedHeard,
  writeRecord,
} from '@evenhand/core/diary';
import type { Exercise } from '@evenhand/core/exercise';
import type { Plan, PlannedBlock, PlannedSession, PlanRequest } from '@evenhand/core/plan';
import type { Random } from '@evenhand/core/random';
import { nextTempo, type Standing, standsAt } from '@evenhand/core/tempo';
import { equalSpeedBpm, msOfMinutes, secOfMinutes } from '@evenhand/core/units';
import { momentOf } from './days.ts';
import { HAD_IT_SHARE, ROUNDS_PER_BLOCK } from './parameters.ts';
import { type DayResult, type DemoPlan, daysBefore, demoRequest, exercisesIn, firstPlan, planNow } from './planning.ts';
import { type Judged, playAloud, playSilently, type Sounded } from './playing.ts';
import * as story from './scenario.ts';

/** What the demo is made from. The same gives the same, byte for byte. */
export interface DemoOptions {
  /** Practice day it is, `YYYY-MM-DD`: that of the eleventh session. */
  readonly today: string;
  /** IANA zone. */
  readonly zone: string;
  readonly random: Random;
  /** Ids of records, takes, device and owner. */
  readonly newId: () => string;
  /** Whose device it is on; default made with `newId`. */
  readonly maker?: { readonly deviceId: string; readonly ownerId: string };
}

/** The sound of a take; its record has the same id. */
export interface DemoTake {
  readonly takeId: string;
  /** first: the phrase at the tempo wanted, first week. latest: the same, last time. phrase: the end of yesterday's session. */
  readonly which: 'first' | 'latest' | 'phrase';
  readonly sampleRateHz: number;
  /** Mono, full scale at ±1. */
  readonly samples: Float32Array<ArrayBuffer>;
}

export interface Demo extends DemoPlan {
  /** In order of making: sticking point, setup, plan, then session by session, each followed by its blocks, takes and note; the plan again where it changed. */
  readonly records: readonly DiaryRecord[];
  readonly takes: readonly DemoTake[];
  readonly stickingPointId: string;
}

/** What the page asks a Worker for. */
export type DemoAsk = Pick<DemoOptions, 'today' | 'zone' | 'maker'>;

/** Makes the demo. Takes a second or two. */
export function makeDemo(options: DemoOptions): Demo {
  const request = demoRequest(addDays(options.today, -daysBefore(story.SESSIONS_DONE + 1)));
  const life = newLife(options, request);
  const { planned, moved } = firstPlan(request);
  let planId = writePlan(life, { ...planned, replaces: null });
  for (const [behind, session] of moved.sessions.slice(0, story.SESSIONS_DONE).entries()) {
    if (behind === story.MISSED_SESSION) planId = writePlan(life, { ...moved, replaces: planId });
    live(life, session, behind);
  }
  const now = planNow(life.records, options.today, { request, moved });
  const plan = { ...now.plan, replaces: planId };
  writePlan(life, plan);
  const { records, takes, stickingPointId } = life;
  return { records, takes, stickingPointId, ...now, plan };
}

/** Writes a revision of the plan; gives its id. */
function writePlan(life: Life, plan: Plan): string {
  const { options, request, stickingPointId } = life;
  const { zone } = options;
  const exercises = exercisesIn(plan, request).map(savedExercise);
  const body = { stickingPointId, goalBpm: request.goalBpm, minutes: request.minutes, ...plan, exercises };
  // With what was written last: the phrase on the first day, else the note of a session.
  const { day, atMs } = life.records.at(-1)!;
  return life.write({ kind: 'plan', atMs, zone, day, body }, atMs);
}

/** What grows as the days go by. */
interface Life {
  readonly options: DemoOptions;
  readonly request: PlanRequest;
  readonly stickingPointId: string;
  readonly records: DiaryRecord[];
  readonly takes: DemoTake[];
  /** What became of the blocks of each exercise, by its id. */
  readonly results: Map<string, readonly DayResult[]>;
  readonly write: (draft: RecordDraft, madeMs: number) => string;
}

function newLife(options: DemoOptions, request: PlanRequest): Life {
  const records: DiaryRecord[] = [];
  const { zone, newId } = options;
  const { deviceId, ownerId } = options.maker ?? { deviceId: newId(), ownerId: newId() };
  let last: Made | null = null;
  const write = (draft: RecordDraft, madeMs: number): string => {
    last = nextStamp(last, madeMs, deviceId);
    const record = writeRecord(draft, { id: newId(), ownerId, made: last });
    records.push(record);
    return record.id;
  };
  const day = request.start;
  const atMs = momentOf(day, story.BEGINS_AT_MINUTES[0]! - TOLD_MINUTES_BEFORE, zone);
  const { name, sticking, perBeat, tempoBpm, cell } = story.POINT;
  const body = { name, sticking, surfaces: request.phrase.surfaces, perBeat, tempoBpm, cell };
  const stickingPointId = write({ kind: 'stickingPoint', atMs, zone, day, body }, atMs);
  write({ kind: 'setup', atMs, zone, day, body: story.SETUP }, atMs);
  return { options, request, stickingPointId, records, takes: [], results: new Map(), write };
}

/** The phrase was typed in so many minutes before the first session. */
const TOLD_MINUTES_BEFORE = 10;

/** One session, written as the app writes it: the session, its blocks and takes, a line of her own. */
function live(life: Life, session: PlannedSession, behind: number): void {
  const { zone } = life.options;
  const day = session.date;
  const atMs = momentOf(day, story.BEGINS_AT_MINUTES[behind % story.BEGINS_AT_MINUTES.length]!, zone);
  const endedAtMs = atMs + msOfMinutes(session.minutes);
  const body = { stickingPointId: life.stickingPointId, plannedMinutes: session.minutes, endedAtMs, ended: 'done', reason: null } as const;
  const sessionId = life.write({ kind: 'session', atMs, zone, day, body }, atMs);
  let blockMs = atMs;
  for (const [position, block] of session.blocks.entries()) {
    playBlock(life, block, { sessionId, day, position, behind, atMs: blockMs, last: position === session.blocks.length - 1 });
    blockMs += msOfMinutes(block.minutes);
  }
  life.write({ kind: 'note', atMs: endedAtMs, zone, day, body: { text: story.NOTES[behind]!, sessionId } }, endedAtMs);
}

/** Where a block stands. */
interface Place {
  readonly sessionId: string;
  readonly day: string;
  readonly position: number;
  /** Sessions behind her. */
  readonly behind: number;
  readonly atMs: number;
  /** Whether it is the last of its session. */
  readonly last: boolean;
}

function playBlock(life: Life, block: PlannedBlock, place: Place): void {
  const { zone, random } = life.options;
  const exercise = life.request.exercises.find(({ id }) => id === block.exerciseId)!;
  const tempoBpm = tempoNow(life, block, exercise);
  const played = { content: exercise, tempoBpm, sessions: place.behind, random };
  const which = block.part === 'warmUp' ? null : soundOf(block, place, tempoBpm);
  const sounded = which && playAloud(played);
  const judged = block.part === 'warmUp' ? null : (sounded ?? playSilently(played));
  const heard = place.behind !== story.OWN_WORD_SESSION;
  const next = judged && nextAfter(life, block, { day: place.day, tempoBpm, clean: judged.runs.clean, runs: judged.runs.runs });
  const endMs = place.atMs + msOfMinutes(block.minutes);
  const takeIds = which && sounded ? [writeTake(life, sounded, { which, place, endMs })] : [];
  const body = {
    sessionId: place.sessionId,
    position: place.position,
    exercise: savedExercise(exercise),
    tempoBpm,
    durationSec: secOfMinutes(block.minutes),
    takeIds,
    heard: judged && heard ? savedHeard(judged) : null,
    ...(judged && !heard ? wordOf(judged) : { playerSays: null }),
    nextTempo: next && { tempoBpm: next.nextTempoBpm, reason: next.reason },
    reason: block.reason,
  };
  life.write({ kind: 'block', atMs: place.atMs, zone, day: place.day, body }, endMs);
}

/** Work goes on where the exercise stands by its results, never beyond the tempo wanted; warm-ups and reference takes are as planned. */
function tempoNow({ results, request }: Life, block: PlannedBlock, exercise: Exercise): number {
  const known = results.get(block.exerciseId);
  if (block.part === 'warmUp' || block.part === 'reference' || !known) return block.tempoBpm;
  return Math.min(standsAt(known).nextTempoBpm, Math.floor(equalSpeedBpm(request.goalBpm, request.phrase.perBeat, exercise.perBeat)));
}

/** The tempo after a block; reference takes, whose tempo is fixed, move nothing. */
function nextAfter({ results }: Life, { part, exerciseId }: PlannedBlock, result: DayResult): Standing {
  if (part === 'reference') return nextTempo([result], result.tempoBpm);
  const all = [...(results.get(exerciseId) ?? []), result];
  results.set(exerciseId, all);
  return standsAt(all);
}

/** Which blocks leave a take with sound: the phrase at the tempo wanted, first and last time, and the end of the last session. */
function soundOf(block: PlannedBlock, { behind, last }: Place, tempoBpm: number): DemoTake['which'] | null {
  if (block.part === 'reference' && tempoBpm === story.POINT.tempoBpm) return behind === 0 ? 'first' : 'latest';
  return last && behind === story.SESSIONS_DONE - 1 ? 'phrase' : null;
}

function writeTake(
  life: Life,
  sounded: Sounded,
  { which, place, endMs }: { readonly which: DemoTake['which']; readonly place: Place; readonly endMs: number },
): string {
  const { samples, sampleRateHz, clicksSec, strokes, problems } = sounded;
  const clock = { sampleRateHz, contextFrame0: 0, wallMs0: place.atMs, latencySec: 0, latencyFrom: 'unknown' } as const;
  const body = {
    sessionId: place.sessionId,
    clock,
    durationSec: samples.length / sampleRateHz,
    stored: 'pcm',
    clicksSec,
    strokes,
    problems,
  } as const;
  const takeId = life.write({ kind: 'take', atMs: place.atMs, zone: life.options.zone, day: place.day, body }, endMs);
  life.takes.push({ takeId, which, sampleRateHz, samples });
  return takeId;
}

/** What she says of a block that nobody heard, round by round: as often that she had it as runs of it were clean. */
function wordOf({ runs }: Judged): Pick<BlockBody, 'playerSays' | 'playerRounds'> {
  const share = runs.runs > 0 ? runs.clean / runs.runs : 0;
  const hadIt = Math.round(share * ROUNDS_PER_BLOCK);
  return { playerSays: share >= HAD_IT_SHARE ? 'hadIt' : 'again', playerRounds: { hadIt, again: ROUNDS_PER_BLOCK - hadIt } };
}

const savedExercise = ({ id, family, sticking, surfaces, perBeat, meter, bars, title, reason }: Exercise): SavedExercise => ({
  ...{ id, family, sticking, surfaces, perBeat, meter, bars },
  ...{ title, reason },
});

function savedHeard({ measurement, findings, runs }: Judged): SavedHeard {
  const { trackedBpm, offsetMs, places, pairs } = measurement;
  return { trackedBpm, offsetMs, places, pairs, cleanRunCount: runs.clean, runCount: runs.runs, findings, problems: [] };
}
