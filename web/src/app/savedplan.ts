/** Plans and exercises as the diary keeps them, and back. */
import type { DiaryView, KnownRecord, PlanBody, SavedExercise, StickingPointBody } from '@evenhand/core/diary';
import type { Exercise } from '@evenhand/core/exercise';
import { type Plan, readPlan } from '@evenhand/core/plan';

/** The plan that stands, as it was read from the diary. */
export interface StandingPlan {
  /** Its record, which the next revision names. */
  readonly id: string;
  readonly stickingPointId: string | null;
  readonly goalBpm: number;
  /** Asked for a day. */
  readonly minutes: number;
  readonly plan: Plan;
  /** Every exercise that its sessions name. */
  readonly exercises: readonly Exercise[];
}

/** An exercise as it is kept. */
export const savedExercise = ({ id, family, sticking, surfaces, perBeat, meter, bars, title, reason }: Exercise): SavedExercise => ({
  ...{ id, family, sticking, surfaces, perBeat, meter, bars },
  ...{ title, reason },
});

/** A kept exercise. Kinds, titles and reasons of another version pass through: `say` gives a code that it does not know as it is. */
export const exerciseOfSaved = (saved: SavedExercise): Exercise => saved as Exercise;

/** The plan that stands in a diary; null without one, or when it cannot be read. */
export function standingPlan({ plan: record }: Pick<DiaryView, 'plan'>): StandingPlan | null {
  if (!record) return null;
  const { stickingPointId, goalBpm, minutes, exercises } = record.body;
  const { value: plan } = readPlan(record.body);
  return plan && { id: record.id, stickingPointId, goalBpm, minutes, plan, exercises: exercises.map(exerciseOfSaved) };
}

/** What a revision leaves in the diary. @param made `exercises` among which are all that its sessions name. */
export function planBody(plan: Plan, made: Pick<StandingPlan, 'stickingPointId' | 'goalBpm' | 'minutes' | 'exercises'>): PlanBody {
  const { stickingPointId, goalBpm, minutes, exercises } = made;
  const { replaces, weekdays, away, sessions } = plan;
  const named = new Set(sessions.flatMap(({ blocks }) => blocks.map(({ exerciseId }) => exerciseId)));
  const once = exercises.filter(({ id }, k) => named.has(id) && exercises.findIndex((other) => other.id === id) === k);
  return { stickingPointId, goalBpm, minutes, replaces, weekdays, away, sessions, exercises: once.map(savedExercise) };
}

/** The sticking point of a plan; null when it is not in this diary. */
export const pointOf = ({ stickingPoints }: DiaryView, { stickingPointId }: StandingPlan): KnownRecord<'stickingPoint'> | null =>
  stickingPoints.find(({ id }) => id === stickingPointId) ?? null;

/** Whether the sticking point of a plan is closed or put aside. */
export const isAtRest = (diary: DiaryView, standing: StandingPlan): boolean => (pointOf(diary, standing)?.body.state?.is ?? 'open') !== 'open';

/** A point as the phrase screen would write it: its name and where it stands make no other phrase of it. */
export const bodyAsTyped = ({ state: _state, ...body }: StickingPointBody, name: string): Omit<StickingPointBody, 'state'> => ({ ...body, name });
