/** Five weeks of twelve minutes as simulated players live them: by our plan, the same exercises in fixed blocks, in random order, and the phrase alone. */
import { daysBetween } from '../../core/src/day.ts';
import type { Exercise } from '../../core/src/exercise/index.ts';
import { type BlockPart, type KnownTempo, makePlan, type Plan, type PlanRequest, planAgain } from '../../core/src/plan/index.ts';
import { cleanRangesHz, drawLearner, type Learner, type Parts, playRuns, runOdds, sleep } from '../../core/src/player/index.ts';
import { type Random, seededRandom } from '../../core/src/random.ts';
import { standsAt, type WeighedResult } from '../../core/src/tempo/index.ts';

export type Arm = 'ours' | 'fixedBlocks' | 'randomOrder' | 'phraseAlone';
export const ARMS: readonly Arm[] = ['ours', 'fixedBlocks', 'randomOrder', 'phraseAlone'];

export interface Lived {
  /** Practice days until the phrase would be clean at the tempo wanted before anything is played that day; null within the weeks never. */
  readonly daysToGoal: number | null;
  /** Share of the runs of work and use that were clean. */
  readonly cleanShare: number;
  /** Clean tempo of the phrase over the tempo wanted on the day after the last, and after three weeks without practice. */
  readonly atEnd: number;
  readonly later: number;
  /** Mean clean tempo, over the tempo wanted, of exercises in music that were never played. */
  readonly inMusic: number;
}

const START = '2026-01-05';
const SHARE = 0.85;
const WEEKS = 5;
const DAYS = 5;
const MINUTES = 12;
/** The tempo wanted over what the phrase holds at first. */
const GOAL_SHARE = 1.3;
/** Days between the last session and the look back. */
const LATER_DAYS = 21;

/** Minutes of one exercise; warm-ups and reference takes at their own tempo, the rest at the one that results gave it. */
interface Turn {
  readonly exercise: Exercise;
  readonly minutes: number;
  readonly part: BlockPart;
  readonly tempoBpm: number;
}

const isWork = ({ part }: Turn): boolean => part === 'work' || part === 'use';

/** What every arm of one player starts from. */
interface Begun {
  readonly learner: Learner;
  readonly request: PlanRequest;
  readonly seed: number;
  /** In music, and never practised in any arm. */
  readonly unplayed: readonly Exercise[];
}

/** The same player in each arm, with chance of its own in each. */
export function liveThrough(
  seed: number,
  shelf: { readonly phrase: Exercise; readonly exercises: readonly Exercise[]; readonly unplayed: readonly Exercise[] },
) {
  const learner = drawLearner(seededRandom(seed));
  const holds = cleanBpm(learner, shelf.phrase);
  const request: PlanRequest = {
    phrase: shelf.phrase,
    exercises: shelf.exercises,
    goalBpm: Math.round(holds * GOAL_SHARE),
    known: [{ exerciseId: shelf.phrase.id, tempoBpm: Math.round(holds * 0.95), days: 1 }],
    ...{ weeks: WEEKS, days: DAYS, minutes: MINUTES, start: START },
  };
  const begun: Begun = { learner, request, seed, unplayed: shelf.unplayed };
  const planned = liveByPlan(begun, request);
  const alone = liveByPlan(begun, { ...request, exercises: [] });
  const work = planned.turns.flat().filter(isWork);
  return {
    ours: planned.lived,
    fixedBlocks: liveTurns(begun, planned.turns, inFixedBlocks(work)),
    randomOrder: liveTurns(begun, planned.turns, inRandomOrder(work, seededRandom(seed + 17))),
    phraseAlone: alone.lived,
  };
}

/** Day by day as planned, what is left planned again after each. */
function liveByPlan(begun: Begun, request: PlanRequest): { readonly lived: Lived; readonly turns: readonly (readonly Turn[])[] } {
  const life = newLife(begun);
  const turns: (readonly Turn[])[] = [];
  let plan: Plan = makePlan(request).value!;
  for (let k = 0; k < plan.sessions.length; k++) {
    const session = plan.sessions[k]!;
    life.comeTo(session.date);
    const played = session.blocks.map(({ exerciseId, minutes, part, tempoBpm }) => {
      const exercise = [request.phrase, ...request.exercises].find(({ id }) => id === exerciseId)!;
      const turn: Turn = { exercise, minutes, part, tempoBpm };
      life.play(turn, isWork(turn) ? life.standsAt(exercise, tempoBpm) : tempoBpm);
      return turn;
    });
    turns.push(played);
    const done = plan.sessions.slice(0, k + 1).map(({ date }) => date);
    plan = planAgain(plan, { ...request, known: life.known() }, { done, today: session.date }).plan;
  }
  return { lived: life.over(), turns };
}

/** All turns of one exercise after each other before the next begins. */
function inFixedBlocks(turns: readonly Turn[]): readonly Turn[] {
  const ids = [...new Set(turns.map(({ exercise }) => exercise.id))];
  return ids.flatMap((id) => turns.filter(({ exercise }) => exercise.id === id));
}

function inRandomOrder(turns: readonly Turn[], random: Random): readonly Turn[] {
  return turns
    .map((turn) => ({ turn, at: random() }))
    .sort((a, b) => a.at - b.at)
    .map(({ turn }) => turn);
}

/**
 * The same work on the same days in another order, warm-ups and reference takes as they were; an exercise begins below where the phrase stands,
 * as it does by plan, and moves by results.
 */
function liveTurns(begun: Begun, days: readonly (readonly Turn[])[], work: readonly Turn[]): Lived {
  const life = newLife(begun);
  const dates = makePlan(begun.request).value!.sessions.map(({ date }) => date);
  let left = [...work];
  for (const [k, date] of dates.entries()) {
    life.comeTo(date);
    for (const turn of days[k]!.filter((each) => !isWork(each))) life.play(turn, turn.tempoBpm);
    let minutes = days[k]!.filter(isWork).reduce((sum, turn) => sum + turn.minutes, 0);
    while (minutes > 0 && left.length > 0) {
      const [turn, ...rest] = left as [Turn, ...Turn[]];
      // A turn that does not fit in the day goes on the next one.
      const now = Math.min(turn.minutes, minutes);
      life.play({ ...turn, minutes: now }, life.standsAt(turn.exercise, life.beginsAt(turn.exercise)));
      minutes -= now;
      left = now < turn.minutes ? [{ ...turn, minutes: turn.minutes - now }, ...rest] : rest;
    }
  }
  return life.over();
}

/** A player's days in one arm. */
function newLife({ learner: first, request, seed, unplayed }: Begun) {
  const random = seededRandom(seed + 1);
  const { phrase, goalBpm } = request;
  let learner = first;
  let day: string | null = null;
  let practised = 0;
  let [clean, runs] = [0, 0];
  let daysToGoal: number | null = null;
  const results = new Map<string, (WeighedResult & { day: string })[]>();
  const twins = (a: Parts, b: Parts) => a.own !== b.own && (a.sticking === b.sticking || nearAlike(a.sticking, b.sticking));

  return {
    comeTo(next: string): void {
      if (day !== null) learner = sleep(learner, { days: daysBetween(day, next), twins, random });
      day = next;
      if (daysToGoal === null && runOdds({ ...learner, form: 0 }, partsOf(phrase), hz(goalBpm, phrase)) >= SHARE) daysToGoal = practised;
      practised++;
    },
    beginsAt: (exercise: Exercise): number => Math.floor((0.9 * standing(phrase, request.known![0]!.tempoBpm) * phrase.perBeat) / exercise.perBeat),
    standsAt: (exercise: Exercise, otherwise: number): number => standing(exercise, otherwise),
    play(turn: Turn, tempoBpm: number): void {
      const { exercise, minutes } = turn;
      // Half of the time is plain time.
      const count = Math.max(1, Math.round(((minutes / 2) * tempoBpm * exercise.perBeat * strokeShare(exercise)) / 8));
      const played = playRuns(learner, partsOf(exercise), { speedHz: hz(tempoBpm, exercise), runs: count, random });
      learner = played.learner;
      if (!isWork(turn)) return;
      clean += played.clean;
      runs += count;
      results.set(exercise.id, [...(results.get(exercise.id) ?? []), { day: day!, tempoBpm, clean: played.clean, runs: count }]);
    },
    known(): readonly KnownTempo[] {
      return [...results].map(([exerciseId, own]) => ({
        exerciseId,
        tempoBpm: standsAt(own).nextTempoBpm,
        days: new Set(own.map((result) => result.day)).size,
      }));
    },
    over(): Lived {
      const next = sleep(learner, { days: 1, twins, random });
      const morning: Learner = { ...next, form: 0 };
      if (daysToGoal === null && runOdds(morning, partsOf(phrase), hz(goalBpm, phrase)) >= SHARE) daysToGoal = practised;
      const rested: Learner = { ...sleep(learner, { days: LATER_DAYS, twins, random }), form: 0 };
      const music = unplayed.map((exercise) => (cleanBpm(morning, exercise) * exercise.perBeat) / (goalBpm * phrase.perBeat));
      return {
        daysToGoal,
        cleanShare: clean / runs,
        atEnd: cleanBpm(morning, phrase) / goalBpm,
        later: cleanBpm(rested, phrase) / goalBpm,
        inMusic: music.reduce((a, b) => a + b, 0) / music.length,
      };
    },
  };

  function standing(exercise: Exercise, otherwise: number): number {
    const own = results.get(exercise.id);
    const goal = Math.floor((goalBpm * phrase.perBeat) / exercise.perBeat);
    return Math.min(goal, own ? standsAt(own).nextTempoBpm : otherwise);
  }
}

const hz = (bpm: number, { perBeat }: Exercise): number => (bpm * perBeat) / 60;

const cleanBpm = (learner: Learner, exercise: Exercise): number =>
  ((cleanRangesHz(learner, partsOf(exercise), SHARE)[0]?.toHz ?? 0.7) * 60) / exercise.perBeat;

/** What of an exercise there is to learn: its strokes in any rotation, where they fall, its drums, and itself. */
function partsOf(exercise: Exercise): Parts {
  const known = PARTS.get(exercise);
  if (known) return known;
  const letters = exercise.sticking.replaceAll(/[^RLKH-]/g, '');
  const turned = Array.from(letters, (_, k) => letters.slice(k) + letters.slice(0, k)).sort()[0]!;
  const parts: Parts = {
    sticking: `s ${turned}`,
    rhythm: `r ${exercise.perBeat} ${letters.replaceAll(/[RLKH]/g, 'x')}`,
    drums: `d ${[...new Set(exercise.surfaces)].sort().join(' ')}`,
    own: exercise.id,
  };
  PARTS.set(exercise, parts);
  return parts;
}
const PARTS = new WeakMap<Exercise, Parts>();

const strokeShare = ({ sticking }: Exercise): number => {
  const letters = sticking.replaceAll(/[^RLKH-]/g, '');
  return letters.replaceAll('-', '').length / letters.length;
};

/** Rough likeness of two stickings: all but an eighth of their letters. */
const nearAlike = (a: string, b: string): boolean =>
  a.length === b.length && Array.from(a).filter((letter, i) => letter !== b[i]).length <= a.length / 8;
