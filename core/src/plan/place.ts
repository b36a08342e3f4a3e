/** A session for a place without a kit: what can be played and heard there stays, the rest is played as something else. */
import { type Exercise, expectedCycle } from '../exercise/index.ts';
import { usualShare } from '../tempo/index.ts';
import { equalSpeedBpm } from '../units.ts';
import type { PlannedBlock, PlannedSession } from './plan.ts';
import type { PlanChange } from './said.ts';
import { wholeBpm } from './starttempo.ts';

/** What the feet do: on a practice pedal that is heard, on the floor unheard, their strokes moved to the hands, or nothing while the hands prepare. */
export type FeetAnswer = 'practicePedal' | 'footOnFloor' | 'movedToHands' | 'handsOnly';

export const FEET_ANSWERS: readonly FeetAnswer[] = ['practicePedal', 'footOnFloor', 'movedToHands', 'handsOnly'];

/** Today's session refitted, with what changed. */
export interface Today {
  /** Null when there is none today. */
  readonly session: PlannedSession | null;
  /** False when the feet play where nothing can hear them: their strokes are then never reported missed, and the player's word counts. */
  readonly feetHeard: boolean;
  /** Answers to choose from before the session can be given; empty when nothing is asked. */
  readonly asks: readonly FeetAnswer[];
  readonly changes: readonly PlanChange[];
}

/** What can be drawn on. */
export interface PlaceOptions {
  /** Exercises by which ids are looked up, best first; those of the session must be among them. */
  readonly exercises: readonly Exercise[];
  /** What stands for an exercise where it cannot be played as it is (its feet moved to the hands, its drums to a pad), by its id. */
  readonly instead?: Readonly<Record<string, Exercise>>;
}

/** The place: whether there is one surface only, and what the feet do; undefined when that is still to be asked. */
export interface Place {
  readonly onlyPad: boolean;
  readonly feet: FeetAnswer | undefined;
}

/**
 * Fits a session to a place. Blocks that can be played there stay as they are; of the others each takes what stands for its exercise, else an
 * exercise of the session that can be played, else the best one of the shelf that can. Minutes stay. When feet are in it and nobody said what
 * they do, the session comes back unchanged with the question.
 */
export function fitToPlace(session: PlannedSession, place: Place, options: PlaceOptions): Today {
  const exerciseOf = (id: string) => options.exercises.find((exercise) => exercise.id === id);
  const feetInIt = session.blocks.some(({ exerciseId }) => hasFeet(exerciseOf(exerciseId)));
  if (feetInIt && place.feet === undefined) {
    return { session, feetHeard: true, asks: FEET_ANSWERS, changes: [{ code: 'plan-feet-asked', params: {} }] };
  }
  const unheard = feetInIt && place.feet === 'footOnFloor';
  const blocks = session.blocks.map((block) => fitBlock(block, session, { place, options }));
  if (!blocks.every((block) => block !== null)) {
    return { session: null, feetHeard: true, asks: [], changes: [{ code: 'plan-nothing-left', params: {} }] };
  }
  const replaced = blocks.filter((block, k) => block.exerciseId !== session.blocks[k]!.exerciseId).length;
  const referenceGone = blocks.some((block, k) => block.part !== session.blocks[k]!.part);
  const changes: PlanChange[] = [
    ...(replaced > 0 ? [{ code: 'plan-exercise-instead', params: { blockCount: replaced } } as const] : []),
    ...(referenceGone ? [{ code: 'plan-reference-left-out', params: {} } as const] : []),
    ...(feetInIt && place.feet === 'practicePedal' ? [{ code: 'plan-feet-heard', params: {} } as const] : []),
    ...(unheard ? [{ code: 'plan-feet-not-heard', params: {} } as const] : []),
  ];
  const unchanged: readonly PlanChange[] = [{ code: 'plan-unchanged', params: {} }];
  return { session: { ...session, blocks }, feetHeard: !unheard, asks: [], changes: changes.length > 0 ? changes : unchanged };
}

interface Fitting {
  readonly place: Place;
  readonly options: PlaceOptions;
}

function fitBlock(block: PlannedBlock, session: PlannedSession, { place, options }: Fitting): PlannedBlock | null {
  const own = options.exercises.find(({ id }) => id === block.exerciseId);
  if (own && playable(own, place)) {
    const unheardReference = block.part === 'reference' && place.feet === 'footOnFloor' && hasFeet(own);
    return unheardReference
      ? { ...block, part: 'work', aim: easyAim(block.tempoBpm, own), reason: { code: 'plan-reason-phrase', params: {} } }
      : block;
  }
  const stand = options.instead?.[block.exerciseId];
  if (stand && playable(stand, place)) return inPlaceOf(block, { own, exercise: stand, session });
  const exercise = otherFor(session, { place, options });
  return exercise ? inPlaceOf(block, { own, exercise, session }) : null;
}

/** What can be played there in place of an exercise that nothing stands for: of the session's own what has no turn of work yet, then any of them, then the shelf. */
function otherFor(session: PlannedSession, { place, options }: Fitting): Exercise | undefined {
  const fits = (each: Exercise | undefined): each is Exercise => each !== undefined && playable(each, place);
  const there = (id: string) => [options.exercises.find((each) => each.id === id), options.instead?.[id]].filter(fits);
  const inSession = session.blocks.flatMap(({ exerciseId }) => there(exerciseId));
  const inWork = new Set(session.blocks.filter(({ part }) => part === 'work').flatMap(({ exerciseId }) => there(exerciseId).map(({ id }) => id)));
  return inSession.find(({ id }) => !inWork.has(id)) ?? inSession[0] ?? options.exercises.find(fits);
}

/** Another exercise in a block: at its own tempo where the session has it, else below the same speed of strokes. */
function inPlaceOf(
  block: PlannedBlock,
  { own, exercise, session }: { readonly own: Exercise | undefined; readonly exercise: Exercise; readonly session: PlannedSession },
): PlannedBlock {
  // Another way of work was meant for the exercise that cannot be played.
  const { way: _way, ...usual } = block;
  const there = session.blocks.find(({ exerciseId, part }) => exerciseId === exercise.id && part === block.part) ?? null;
  const fromBpm = equalSpeedBpm(block.tempoBpm, own?.perBeat ?? exercise.perBeat, exercise.perBeat);
  const tempoBpm = there?.tempoBpm ?? wholeBpm(fromBpm * usualShare({ of: 'nothing', drums: 'same' }));
  return {
    ...usual,
    exerciseId: exercise.id,
    part: block.part === 'reference' ? 'work' : block.part,
    tempoBpm,
    aim: block.part === 'warmUp' ? { code: 'plan-aim-warm-up', params: { tempoBpm, perBeat: exercise.perBeat } } : easyAim(tempoBpm, exercise),
    reason: block.part === 'warmUp' ? block.reason : { code: 'plan-reason-instead', params: {} },
    tempoReason: there?.tempoReason ?? { code: 'plan-tempo-below-planned', params: { fromBpm: wholeBpm(fromBpm) } },
  };
}

const easyAim = (tempoBpm: number, { perBeat }: Exercise) => ({ code: 'plan-aim-easy', params: { tempoBpm, perBeat } }) as const;

/** Whether an exercise can be played at a place: on one hand drum where there is only a pad, with feet only where they have something to do. */
function playable(exercise: Exercise, { onlyPad, feet }: Place): boolean {
  if (hasFeet(exercise) && feet !== 'practicePedal' && feet !== 'footOnFloor') return false;
  return !onlyPad || new Set(handSurfaces(exercise)).size <= 1;
}

const hasFeet = (exercise: Exercise | undefined): boolean => exercise !== undefined && /[KH]/.test(exercise.sticking);

/** Drums of the strokes that hands play. */
function handSurfaces(exercise: Exercise): readonly string[] {
  return expectedCycle(exercise)
    .strokes.filter(({ limb }) => limb === 'R' || limb === 'L')
    .map(({ surface }) => surface);
}
