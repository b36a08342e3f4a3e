/** The phrases that have a plan, and what each has for today. */
import type { DiaryView } from '@evenhand/core/diary';
import { daysOver } from './cutoff.ts';
import { type PlannedDay, plannedDay } from './planning.ts';
import { daysOfPlan, pointOf, type StandingPlan, standingPlans, stateOf } from './savedplan.ts';

/** A phrase that has a plan. */
export interface PlannedPhrase {
  readonly standing: StandingPlan;
  /** What the phrase is called; its letters when it has no name. */
  readonly name: string;
  readonly sticking: string;
  readonly perBeat: number;
  readonly state: 'open' | 'paused' | 'closed';
  readonly planned: PlannedDay;
}

/** In the order in which the phrases were named: a new revision of a plan moves none. */
export function plannedPhrases(diary: DiaryView, today: string): readonly PlannedPhrase[] {
  const placeOf = ({ stickingPointId }: StandingPlan) => diary.stickingPoints.findIndex(({ id }) => id === stickingPointId);
  const inOrder = [...standingPlans(diary)].sort((a, b) => placeOf(a) - placeOf(b));
  return inOrder.map((standing) => {
    const { name = '', sticking = '', perBeat = 4 } = pointOf(diary, standing)?.body ?? {};
    const state = stateOf(diary, standing);
    const done = daysOver(daysOfPlan(diary, standing), today);
    return { standing, name: name || sticking, sticking, perBeat, state, planned: plannedDay(standing.plan, { done, today, state }) };
  });
}
