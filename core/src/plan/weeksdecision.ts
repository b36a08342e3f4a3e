/** Whether a phrase was closed, put aside or goes on, and why: what is there and what is missing. */
import { cameBack, type ReadyStatement } from '../progress/index.ts';
import { readinessOfPlan } from './planned.ts';
import type { WeeksPlan } from './weeksplan.ts';
import type { OnWeeksPage } from './weekssaid.ts';

/** The decision first, then a check to come, then what is there and what is missing. */
export function weeksDecision(plan: WeeksPlan, today: string): OnWeeksPage[] {
  const readiness = readinessOfPlan(plan.planned, plan.results);
  const check = plan.checks.find(({ date }) => date >= today);
  const why = (of: 'there' | 'missing'): OnWeeksPage[] => {
    const all = together(readiness?.[of] ?? []);
    return all.length > 0 ? [{ code: 'weeks-why', params: { of } }, ...all] : [];
  };
  return [
    ...decided(plan, { today, ready: readiness?.ready ?? false }),
    ...(check ? [{ code: 'weeks-check', params: { day: check.date } } as const] : []),
    ...why('there'),
    ...why('missing'),
  ];
}

/** Families of which the same is missing in one sentence, before the others. */
function together(all: readonly ReadyStatement[]): readonly OnWeeksPage[] {
  const of = (code: 'progress-family-not-yet' | 'progress-family-once') => all.flatMap((one) => (one.code === code ? [one.params.family] : []));
  const [notYet, once] = [of('progress-family-not-yet'), of('progress-family-once')];
  const others = all.filter(({ code }) => code !== 'progress-family-not-yet' && code !== 'progress-family-once');
  return [
    ...(notYet.length > 0 ? [{ code: 'weeks-families', params: { families: notYet, clean: 'not-yet' } } as const] : []),
    ...(once.length > 0 ? [{ code: 'weeks-families', params: { families: once, clean: 'once' } } as const] : []),
    ...others,
  ];
}

function decided(
  { point, phrase, planned, results, to }: WeeksPlan,
  { today, ready }: { readonly today: string; readonly ready: boolean },
): OnWeeksPage[] {
  const state = point?.body.state;
  if (state?.is === 'paused') return [{ code: 'weeks-paused', params: { day: state.day } }];
  if (state?.is === 'closed') {
    const back = phrase && cameBack(state.day, { phrase: { exerciseId: phrase.id, goalBpm: planned.goalBpm }, results });
    return [{ code: 'weeks-closed', params: { day: state.day } }, ...(back ? [back] : [])];
  }
  return ready ? [{ code: 'weeks-ready', params: {} }] : [{ code: 'weeks-goes-on', params: { to, over: to < today } }];
}
