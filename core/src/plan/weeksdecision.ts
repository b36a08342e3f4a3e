/** Whether a phrase was closed, put aside or goes on, and why: what is there and what is missing. */
import { addDays } from '../day.ts';
import { cameBack, type Readiness, type ReadyStatement, tempoCurve } from '../progress/index.ts';
import { forecast } from '../tempo/index.ts';
import { readinessOfPlan } from './planned.ts';
import { isClosed, type WeeksPlan } from './weeksplan.ts';
import type { OnWeeksPage } from './weekssaid.ts';

/** The decision first, then a check to come, then what is there and what is missing. */
export function weeksDecision(plan: WeeksPlan, today: string): OnWeeksPage[] {
  const readiness = readinessOfPlan(plan.planned, plan.results, { since: plan.point?.day ?? '' });
  const check = plan.checks.find(({ date }) => date >= today);
  const closed = isClosed(plan.point);
  const why = (of: 'there' | 'missing'): OnWeeksPage[] => {
    // What comes before a closing is no longer to come.
    const all = together((readiness?.[of] ?? []).filter(({ code }) => !closed || (code !== 'progress-check-later' && code !== 'progress-check-due')));
    return all.length > 0 ? [{ code: 'weeks-why', params: { of: closed && of === 'missing' ? 'closed-without' : of } }, ...all] : [];
  };
  return [
    ...decided(plan, { today, ready: readiness?.ready ?? false }),
    ...foretold(plan, { today, readiness }),
    ...checksMissed(plan, today),
    ...(check ? [{ code: 'weeks-check', params: { day: check.date } } as const] : []),
    ...why('there'),
    ...why('missing'),
  ];
}

/** Why a block is there that tries the tempo wanted a moment at a time. */
const BURSTS = ['plan-reason-stuck', 'plan-reason-bursts'];
/** So many of the latest days are looked at, as where the clean tempo is shown. */
const LATEST_DAYS = 60;
/** After something hurt, nothing else is proposed for so long. Assumption: as long as a fortnight of rest. */
const HURT_DAYS = 14;

/** Of a phrase that goes on: when the tempo wanted may come; where it is not in sight, what else could be tried. */
function foretold(
  { point, phrase, planned, played, record, results }: WeeksPlan,
  { today, readiness }: { readonly today: string; readonly readiness: Readiness | null },
): OnWeeksPage[] {
  if (!phrase || readiness?.ready || (point?.body.state && point.body.state.is !== 'open')) return [];
  const points = tempoCurve(results, phrase.id, { latestDays: LATEST_DAYS });
  const told = points.flatMap(({ day, estimate }) => (estimate.known ? [{ day, ...estimate }] : []));
  const said = forecast(told, planned.goalBpm, today);
  if (said.code === 'forecast-too-little' || said.code === 'forecast-there') return [];
  const hurt = played.some(({ day, ended }) => ended === 'hurt' && day > addDays(today, -HURT_DAYS));
  if (said.code !== 'forecast-not-yet-seen' || hurt) return [said];
  const families = (readiness?.missing ?? []).flatMap((one) => (one.code === 'progress-family-not-tried' ? [one.params.family] : []));
  const bursts = !record.body.sessions.some(({ blocks }) => blocks.some(({ reason }) => BURSTS.includes(reason.code)));
  return [said, { code: 'weeks-else', params: { families, bursts } }];
}

/** Days on which a closed phrase was to be tried again, and was not. */
function checksMissed({ point, record }: WeeksPlan, today: string): OnWeeksPage[] {
  const closedOn = isClosed(point) ? point!.body.state!.day : null;
  const days = closedOn === null ? [] : record.body.away.filter((day) => day > closedOn && day < today);
  return days.length > 0 ? [{ code: 'weeks-check-missed', params: { days } }] : [];
}

const FAMILIES_MISSING = [
  { code: 'progress-family-not-yet', clean: 'not-yet' },
  { code: 'progress-family-once', clean: 'once' },
  { code: 'progress-family-not-tried', clean: 'not-tried' },
] as const;

/** Families of which the same is missing in one sentence, before the others. */
function together(all: readonly ReadyStatement[]): readonly OnWeeksPage[] {
  const inOne = FAMILIES_MISSING.flatMap(({ code, clean }) => {
    const families = all.flatMap((one) => (one.code === code ? [one.params.family] : []));
    return families.length > 0 ? [{ code: 'weeks-families', params: { families, clean } } as const] : [];
  });
  return [...inOne, ...all.filter((one) => !FAMILIES_MISSING.some(({ code }) => code === one.code))];
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
