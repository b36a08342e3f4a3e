/** Which families are open: by results when there are any, by the weeks where there are none yet. */
import type { Exercise, Family } from '../exercise/index.ts';
import { FAMILY_ORDER, FIRST_OPEN, HELD, LAST_WEEKS_ALL_OPEN } from './parameters.ts';
import type { PlanRequest } from './plan.ts';
import { goalOf } from './starttempo.ts';

/** Families on the shelf in the order in which they open, and how many of them are open by what is known now. */
export interface FamiliesNow {
  readonly inOrder: readonly Family[];
  readonly open: number;
}

/** What is open by results: two, and one more for each that holds. */
export function familiesNow(request: PlanRequest): FamiliesNow {
  const inOrder = FAMILY_ORDER.filter((family) => shelfOf(request).some((exercise) => exercise.family === family));
  return { inOrder, open: Math.min(inOrder.length, FIRST_OPEN + inOrder.filter((family) => holds(request, family)).length) };
}

/**
 * Families open in a week. Later weeks have no results yet: the families left are spread over them, and planning again with results corrects it.
 * @param week from 0, counted from the first session that is being planned.
 * @param weeks planned.
 */
export function openFamilies({ inOrder, open }: FamiliesNow, week: number, weeks: number): readonly Family[] {
  const weeksToAll = Math.max(1, weeks - LAST_WEEKS_ALL_OPEN);
  return inOrder.slice(0, open + Math.floor((Math.min(week, weeksToAll) * (inOrder.length - open)) / weeksToAll));
}

/** The exercises that may be planned beside the phrase: all but those that are too hard now, so that others take their place. */
export const shelfOf = ({ exercises, phrase, known }: PlanRequest): readonly Exercise[] =>
  exercises.filter(({ id }) => id !== phrase.id && !known?.some(({ exerciseId, tooHard }) => exerciseId === id && tooHard));

/** Whether an exercise of a family has come near the tempo wanted. */
function holds(request: PlanRequest, family: Family): boolean {
  return shelfOf(request).some((exercise) => {
    const known = request.known?.find(({ exerciseId }) => exerciseId === exercise.id);
    return (
      exercise.family === family && known !== undefined && known.days >= HELD.days && known.tempoBpm >= HELD.tempoShare * goalOf(exercise, request)
    );
  });
}
