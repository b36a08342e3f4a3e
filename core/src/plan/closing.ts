/** Which families count before the phrase of a plan can be closed: those the player chose, use always among them. */
import type { Family } from '../exercise/index.ts';
import { FAMILY_ORDER } from './parameters.ts';
import type { Plan } from './plan.ts';

/**
 * A choice as a plan keeps it: families that are known, each once, in the order in which they open, use among them.
 * @param chosen names of families; others are passed over.
 */
export const closingFamilies = (chosen: readonly unknown[]): readonly Family[] =>
  FAMILY_ORDER.filter((family) => family === 'use' || chosen.includes(family));

/**
 * The plan with another choice of what counts; nothing else of it changes.
 * @param chosen null takes a choice back: every family of the plan counts.
 */
export function withClosing(plan: Plan, chosen: readonly Family[] | null): Plan {
  const { closing: _before, ...rest } = plan;
  return chosen === null ? rest : { ...rest, closing: closingFamilies(chosen) };
}
