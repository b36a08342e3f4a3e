/** Steps of the machine, one after the other. */
import type { SessionState, SessionStep } from './state.ts';

/** Nothing is to be done. */
export const still = (state: SessionState): SessionStep => ({ state, effects: [] });

/** Runs `next` on what `step` left, keeping the order of effects. */
export function andThen(step: SessionStep, next: (state: SessionState) => SessionStep): SessionStep {
  const after = next(step.state);
  return { state: after.state, effects: [...step.effects, ...after.effects] };
}
