/** Which exercises a session works on, and why each. */
import type { Exercise, Family } from '../exercise/index.ts';
import { type FamiliesNow, openFamilies } from './families.ts';
import { DIFFERENT_PER_SESSION, FIRST_LEARNING_SESSIONS, NEW_PER_WEEK, REST_WEEKS, STRETCH_WEEKS, VARIETY_LIMIT } from './parameters.ts';
import type { PlanRequest } from './plan.ts';
import type { PlanReason } from './said.ts';
import { type Seen, type SeenExercise, weekSoFar } from './seen.ts';
import { nearTwins } from './twins.ts';

/** An exercise chosen for a day. */
export interface Pick {
  readonly exercise: Exercise;
  readonly reason: PlanReason;
  /** True in its first session, when its blocks come in a row. */
  readonly inARow: boolean;
}

/** What the choice of a session rests on. */
export interface ChoiceContext {
  readonly request: PlanRequest;
  /** Exercises that may be planned beside the phrase. */
  readonly shelf: readonly Exercise[];
  readonly families: FamiliesNow;
  /** Ids of those that there are results of. */
  readonly known: ReadonlySet<string>;
  readonly seen: Seen;
  /** Sessions a week. */
  readonly perWeek: number;
  /** Week from 0, counted from the first session that is being planned. */
  readonly week: number;
  /** Blocks of work there are to fill. */
  readonly blocks: number;
  /** Exercises that are to have a turn: worked on in a way that was chosen, or stuck. */
  readonly asked: readonly Exercise[];
}

/**
 * The exercises of a session, at most three, no two of them near-twins: one still being learnt or a new one first, then those not played
 * longest; the phrase itself where nothing else is left. As many sessions as a week has never hold more exercises than the variety limit.
 */
export function choose(context: ChoiceContext): readonly Pick[] {
  const wanted = Math.min(context.blocks, DIFFERENT_PER_SESSION);
  const picks: Pick[] = [];
  const take = (pick: Pick | undefined) => {
    if (pick && picks.length < wanted) picks.push(pick);
  };
  take(stillLearning(context));
  if (picks.length === 0) take(newOne(context));
  for (const exercise of asked(context)) if (!picks.some((pick) => pick.exercise.id === exercise.id)) take(turnOf(exercise, context));
  // A stretch that is over makes room, unless the session would be empty without it.
  for (const over of [false, true]) {
    if (over && picks.length > 0) break;
    for (const pick of goingOn(context, over)) if (!picks.some(({ exercise }) => nearTwins(exercise, pick.exercise))) take(pick);
  }
  const { phrase } = context.request;
  if (!picks.some(({ exercise }) => exercise.id === phrase.id)) take(turnOf(phrase, context));
  return picks;
}

/** Those asked for that the variety limit has room for. */
function asked({ asked: wanted, request, seen, perWeek }: ChoiceContext): readonly Exercise[] {
  const week = weekSoFar(seen, perWeek);
  const room = VARIETY_LIMIT[request.who ?? 'player'] - week.size - 1;
  return wanted.filter(({ id }) => id === request.phrase.id || week.has(id) || room > 1);
}

const turnOf = (exercise: Exercise, { request }: ChoiceContext): Pick => ({
  exercise,
  reason:
    exercise.id === request.phrase.id
      ? { code: 'plan-reason-phrase', params: {} }
      : { code: 'plan-reason-again', params: { family: exercise.family } },
  inARow: false,
});

/** The exercise that is in its first sessions. */
function stillLearning({ shelf, known, seen }: ChoiceContext): Pick | undefined {
  const exercise = shelf.find(({ id }) => {
    const was = seen.exercises.get(id);
    return was !== undefined && was.sessions < FIRST_LEARNING_SESSIONS && !known.has(id);
  });
  return exercise && { exercise, reason: { code: 'plan-reason-learning', params: { family: exercise.family } }, inARow: false };
}

/** A new exercise when it is time for one and the week has room; else one that comes back, leaving room for the next new one. */
function newOne(context: ChoiceContext): Pick | undefined {
  const { request, seen, perWeek } = context;
  const who = request.who ?? 'player';
  const due = seen.exercises.size <= Math.floor((seen.count * NEW_PER_WEEK[who]) / perWeek);
  const week = weekSoFar(seen, perWeek);
  const room = VARIETY_LIMIT[who] - week.size - 1;
  if (room < 1) return undefined;
  const fresh = unseen(context);
  if (fresh && due) return fresh;
  return room > (fresh ? 1 : 0) ? returning(context, week) : undefined;
}

/** The best exercise not yet in the plan, one never played first, of the open family that has had fewest turns. */
function unseen({ request, shelf, families, known, seen, week }: ChoiceContext): Pick | undefined {
  const open = openFamilies(families, week, request.weeks);
  const played = ({ id }: Exercise) => seen.exercises.has(id) || known.has(id);
  const turns = (family: Family) => shelf.filter((exercise) => exercise.family === family && played(exercise)).length;
  const inTurn = [...open].sort((a, b) => turns(a) - turns(b));
  const waiting = inTurn.map((family) => shelf.filter((exercise) => exercise.family === family && !seen.exercises.has(exercise.id)));
  const exercise = waiting.flatMap((row) => row.find((each) => !played(each)) ?? [])[0] ?? waiting.flat()[0];
  if (!exercise) return undefined;
  const params = { family: exercise.family };
  if (played(exercise)) return { exercise, reason: { code: 'plan-reason-again', params }, inARow: false };
  return { exercise, reason: { code: 'plan-reason-new', params }, inARow: true };
}

/** The exercise whose rest is over by most: rests grow each time it has come back. */
function returning({ shelf, seen, perWeek }: ChoiceContext, week: ReadonlySet<string>): Pick | undefined {
  const overdue = (exercise: Exercise) => (seen.count - lastOf(seen, exercise)) / restOf(seen.exercises.get(exercise.id)!, perWeek);
  const rested = shelf.filter((exercise) => seen.exercises.has(exercise.id) && !week.has(exercise.id) && overdue(exercise) >= 1);
  const exercise = rested.sort((a, b) => overdue(b) - overdue(a))[0];
  if (!exercise) return undefined;
  const params = { family: exercise.family, sessionsAgo: seen.count - lastOf(seen, exercise) };
  return { exercise, reason: { code: 'plan-reason-returns', params }, inARow: false };
}

/** Sessions that an exercise rests for after its present stretch. */
const restOf = ({ stretches }: SeenExercise, perWeek: number): number => perWeek * REST_WEEKS[Math.min(stretches, REST_WEEKS.length) - 1]!;

/** Exercises of the week so far, those not played longest first. */
function goingOn({ shelf, seen, perWeek }: ChoiceContext, over: boolean): readonly Pick[] {
  const week = weekSoFar(seen, perWeek);
  return shelf
    .filter(({ id }) => week.has(id) && seen.count - seen.exercises.get(id)!.began > STRETCH_WEEKS * perWeek === over)
    .sort((a, b) => lastOf(seen, a) - lastOf(seen, b))
    .map((exercise) => ({ exercise, reason: { code: 'plan-reason-again', params: { family: exercise.family } }, inARow: false }));
}

const lastOf = (seen: Seen, exercise: Exercise): number => seen.exercises.get(exercise.id)!.last;
