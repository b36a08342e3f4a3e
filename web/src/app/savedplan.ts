/** Plans and exercises as the diary keeps them, and back. */
import type { DiaryView, KnownRecord, PlanBody, SavedExercise, StickingPointBody } from '@evenhand/core/diary';
import type { Exercise } from '@evenhand/core/exercise';
import { daysOfPhrase, PHRASE_AT_HAND, type Plan, type PlanRequest, readPlan, WAYS, type Way } from '@evenhand/core/plan';
import { readClickWay } from '@evenhand/core/session';

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
  readonly agreed: Agreed;
}

/** What was agreed for the exercises of a plan, and the player's own blocks; each revision carries it on. */
export type Agreed = Required<Pick<PlanRequest, 'caps' | 'ways' | 'own' | 'clicks'>>;

export const NOTHING_AGREED: Agreed = { caps: [], ways: [], own: [], clicks: [] };

/** An exercise as it is kept. */
export const savedExercise = ({ id, family, sticking, surfaces, perBeat, meter, bars, title, reason }: Exercise): SavedExercise => ({
  ...{ id, family, sticking, surfaces, perBeat, meter, bars },
  ...{ title, reason },
});

/** A kept exercise. Kinds, titles and reasons of another version pass through: `say` gives a code that it does not know as it is. */
export const exerciseOfSaved = (saved: SavedExercise): Exercise => saved as Exercise;

/** The plans that stand in a diary, one for each phrase, in the order in which they were made; those that cannot be read are left out. */
export const standingPlans = ({ plans }: Pick<DiaryView, 'plans'>): readonly StandingPlan[] => plans.flatMap((record) => standingOf(record) ?? []);

/** The plan that is at hand: the one that was chosen, else the one made last. Null without one. */
export function standingPlan(diary: Pick<DiaryView, 'plans' | 'settings'>): StandingPlan | null {
  const plans = standingPlans(diary);
  return plans.find(({ stickingPointId }) => stickingPointId !== null && stickingPointId === diary.settings[PHRASE_AT_HAND]) ?? plans.at(-1) ?? null;
}

function standingOf(record: KnownRecord<'plan'>): StandingPlan | null {
  const { stickingPointId, goalBpm, minutes, exercises, caps = [], ways = [], own = [], clicks = [] } = record.body;
  const { value: plan } = readPlan(record.body);
  if (!plan) return null;
  const agreed = {
    caps,
    ways: ways.flatMap(({ way, ...rest }) => (isWay(way) ? [{ ...rest, way }] : [])),
    clicks: clicks.map(({ click: written, ...rest }) => {
      const click = readClickWay(written);
      return { ...rest, ...(click ? { click } : {}) };
    }),
    own: own.flatMap(({ as, exercise, ...rest }) =>
      as === 'warmUp' || as === 'repertoire' ? [{ ...rest, as: as as 'warmUp' | 'repertoire', exercise: exerciseOfSaved(exercise) }] : [],
    ),
  };
  return { id: record.id, stickingPointId, goalBpm, minutes, plan, exercises: exercises.map(exerciseOfSaved), agreed };
}

const isWay = (way: string): way is Way => (WAYS as readonly string[]).includes(way);

/** What a plan is kept with; nothing is agreed unless said. */
export type KeptWith = Omit<StandingPlan, 'id' | 'plan' | 'agreed'> & Partial<Pick<StandingPlan, 'agreed'>>;

/** What a revision leaves in the diary. @param made `exercises` among which are all that its sessions name. */
export function planBody(plan: Plan, made: KeptWith): PlanBody {
  const { stickingPointId, goalBpm, minutes, exercises, agreed = NOTHING_AGREED } = made;
  const { caps, ways, clicks } = agreed;
  const own = agreed.own.map(({ exercise, ...rest }) => ({ ...rest, exercise: savedExercise(exercise) }));
  const lists = { caps, ways, clicks, own };
  const kept = Object.fromEntries(Object.entries(lists).filter(([, list]) => list.length > 0)) as Partial<typeof lists>;
  const { replaces, weekdays, away, sessions, closing } = plan;
  const counting = closing ? { closing } : {};
  const named = new Set(sessions.flatMap(({ blocks }) => blocks.map(({ exerciseId }) => exerciseId)));
  const once = exercises.filter(({ id }, k) => named.has(id) && exercises.findIndex((other) => other.id === id) === k);
  return { stickingPointId, goalBpm, minutes, replaces, weekdays, away, sessions, exercises: once.map(savedExercise), ...counting, ...kept };
}

/** The sticking point of a plan; null when it is not in this diary. */
export const pointOf = ({ stickingPoints }: DiaryView, { stickingPointId }: StandingPlan): KnownRecord<'stickingPoint'> | null =>
  stickingPoints.find(({ id }) => id === stickingPointId) ?? null;

/** Whether the sticking point of a plan is worked on, put aside or closed. */
export const stateOf = (diary: DiaryView, standing: StandingPlan): 'open' | 'paused' | 'closed' => pointOf(diary, standing)?.body.state?.is ?? 'open';

/** The days of a diary with the sessions of a plan: without those of the phrases of other plans, and without searches. */
export const daysOfPlan = (diary: DiaryView, { stickingPointId }: StandingPlan): Pick<DiaryView, 'days'> => daysOfPhrase(diary, stickingPointId);

/** The plan of a phrase typed alike, whatever its tempo and cell. */
export const planOfPhrase = (diary: DiaryView, typed: Pick<StickingPointBody, 'sticking' | 'surfaces' | 'perBeat'>): StandingPlan | null =>
  standingPlans(diary).find((standing) => {
    const body = pointOf(diary, standing)?.body;
    return (
      body !== undefined &&
      JSON.stringify([body.sticking, body.surfaces, body.perBeat]) === JSON.stringify([typed.sticking, typed.surfaces, typed.perBeat])
    );
  }) ?? null;

/** A point as the phrase screen would write it: its name and where it stands make no other phrase of it. */
export const bodyAsTyped = ({ state: _state, ...body }: StickingPointBody, name: string): Omit<StickingPointBody, 'state'> => ({ ...body, name });
