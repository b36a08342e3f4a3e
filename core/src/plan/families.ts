/** Which families are open: by results when there are any, by the weeks where there are none yet. */
import type { Exercise, Family } from '../exercise/index.ts';
import { FAMILY_ORDER, FIRST_OPEN, HELD, LAST_WEEKS_ALL_OPEN } from './parameters.ts';
import type { PlanRequest } from './plan.ts';
import { goalOf } from './starttempo.ts';

/**
 * Families open in a week, in their order. What is open in the first week follows from results: two, and one more for each that holds.
 * Later weeks have no results yet: the rest is spread over them, and planning again with results corrects it.
 * @param week from 0, counted from the first session that is being planned.
 */
export function openFamilies(request: PlanRequest, week: number): readonly Family[] {
  const there = FAMILY_ORDER.filter((family) => shelfOf(request).some((exercise) => exercise.family === family));
  const now = Math.min(there.length, FIRST_OPEN + there.filter((family) => holds(request, family)).length);
  const weeksToAll = Math.max(1, request.weeks - LAST_WEEKS_ALL_OPEN);
  return there.slice(0, now + Math.floor((Math.min(week, weeksToAll) * (there.length - now)) / weeksToAll));
}

/** The exercises that may be planned beside the phrase. */
export const shelfOf = ({ exercises, phrase }: PlanRequest): readonly Exercise[] => exercises.filter(({ id }) => id !== phrase.id);

/** Whether an exercise of a family has come near the tempo wanted. */
function holds(request: PlanRequest, family: Family): boolean {
  return shelfOf(request).some((exercise) => {
    const known = request.known?.find(({ exerciseId }) => exerciseId === exercise.id);
    return (
      exercise.family === family && known !== undefined && known.days >= HELD.days && known.tempoBpm >= HELD.tempoShare * goalOf(exercise, request)
    );
  });
}
