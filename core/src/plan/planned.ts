/** What a plan was for: its phrase, the tempo wanted of each exercise, and what is there and missing before it can be closed. */
import type { Family } from '../exercise/index.ts';
import type { Statement } from '../problem.ts';
import { type ExerciseResult, type Readiness, readyToClose } from '../progress/index.ts';
import { equalSpeedBpm } from '../units.ts';
import { closingFamilies } from './closing.ts';

interface Playable {
  readonly id: string;
  readonly family: string;
  readonly perBeat: number;
}

/** A plan with what it was asked for, as an app reads it or as a diary keeps it. */
export interface Planned<Of extends Playable = Playable> {
  /** Tempo the phrase is wanted at. */
  readonly goalBpm: number;
  /** Every exercise that its sessions name. */
  readonly exercises: readonly Of[];
  readonly plan: {
    readonly sessions: readonly {
      readonly blocks: readonly { readonly exerciseId: string; readonly part: string; readonly reason: Statement }[];
    }[];
    /** Families that count for closing; missing is all. */
    readonly closing?: readonly string[];
  };
}

/** The phrase is what reference takes play; a plan without any ends its days on it. Null when neither is there. */
export function phraseOfPlan<Of extends Playable>({ plan, exercises }: Pick<Planned<Of>, 'plan' | 'exercises'>): Of | null {
  const blocks = plan.sessions.flatMap((session) => session.blocks);
  const block = blocks.find(({ part }) => part === 'reference') ?? blocks.find(({ reason }) => reason.code === 'plan-reason-ends');
  return exercises.find(({ id }) => id === block?.exerciseId) ?? null;
}

/** The tempo wanted of an exercise: as fast, stroke for stroke, as the phrase is wanted. Null when the plan names no phrase. */
export function goalFor({ perBeat }: Pick<Playable, 'perBeat'>, planned: Planned): number | null {
  const phrase = phraseOfPlan(planned);
  return phrase && Math.floor(equalSpeedBpm(planned.goalBpm, phrase.perBeat, perBeat));
}

/** A result, with the kind of exercise where it is known. */
type PlayedResult = ExerciseResult & { readonly exercise?: { readonly family: string } };

/**
 * What is there and what is missing before the phrase of a plan can be closed; null when the plan names no phrase. The phrase as it stands counts for itself,
 * and not as one of the kinds that are made of it.
 * @param options `since` the day on which the phrase was begun: kinds played from then on were tried, also in plans before this one.
 */
export function readinessOfPlan(
  planned: Planned,
  results: readonly PlayedResult[],
  { since = '' }: { readonly since?: string } = {},
): Readiness | null {
  const phrase = phraseOfPlan(planned);
  if (!phrase) return null;
  const chosen = madeOf(planned).map(({ id, family, perBeat }) => ({
    exerciseId: id,
    family: family as Family,
    goalBpm: goalFor({ perBeat }, planned)!,
  }));
  const families = countingOf(planned).flatMap(({ family, counts }) => (counts ? [family] : []));
  const tried = results.flatMap(({ day, exerciseId, exercise }) =>
    exercise && exerciseId !== phrase.id && day >= since ? [exercise.family as Family] : [],
  );
  return readyToClose({ phrase: { exerciseId: phrase.id, goalBpm: planned.goalBpm }, chosen, results, families, tried });
}

/** The exercises of a plan without the phrase as it stands. */
function madeOf<Of extends Playable>(planned: Pick<Planned<Of>, 'plan' | 'exercises'>): readonly Of[] {
  const phrase = phraseOfPlan(planned);
  return planned.exercises.filter(({ id }) => id !== phrase?.id);
}

/** A family of a plan, and whether it counts for closing. */
export interface Counting {
  readonly family: Family;
  readonly counts: boolean;
}

/** The families of a plan in the order in which they open, use among them, which always counts. */
export function countingOf(planned: Pick<Planned, 'plan' | 'exercises'>): readonly Counting[] {
  const closing = planned.plan.closing as readonly Family[] | undefined;
  const there = closingFamilies([...madeOf(planned).map(({ family }) => family as Family), ...(closing ?? [])]);
  return there.map((family) => ({ family, counts: family === 'use' || (closing?.includes(family) ?? true) }));
}
