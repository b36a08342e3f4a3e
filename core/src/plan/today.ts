/** Today's session when the day is not as planned: only a pad, five minutes, tired hands, feet without a kit, something that hurts. */
import { type SharedMinutes, shareMinutes, toQuarters } from './minutes.ts';
import { MINUTES_RANGE, TIRED } from './parameters.ts';
import { type FeetAnswer, fitToPlace, type PlaceOptions, type Today } from './place.ts';
import type { PlannedBlock, PlannedSession } from './plan.ts';
import type { PlanChange } from './said.ts';
import { wholeBpm } from './starttempo.ts';

/** What the day is like. `feet` answers what to do with the feet where there is no kit; without it the question comes back. */
export type Circumstance =
  | { readonly kind: 'onlyPad'; readonly feet?: FeetAnswer }
  | { readonly kind: 'feetWithoutKit'; readonly feet?: FeetAnswer }
  | { readonly kind: 'minutes'; readonly minutes: number }
  | { readonly kind: 'handsTired' }
  | { readonly kind: 'hurts' };

/**
 * Refits a session for the day as it is. Always from the session as it was planned, so that nothing is cut twice.
 * @param session as planned.
 * @param options exercises that the plan can draw on, those of the session among them.
 */
export function refitToday(session: PlannedSession, circumstance: Circumstance, options: PlaceOptions): Today {
  switch (circumstance.kind) {
    case 'hurts':
      return heard(null, [{ code: 'plan-hurts', params: {} }]);
    case 'minutes':
      return inMinutes(session, circumstance.minutes);
    case 'handsTired':
      return withTiredHands(session);
    case 'onlyPad':
      return fitToPlace(session, { onlyPad: true, feet: circumstance.feet }, options);
    case 'feetWithoutKit':
      return fitToPlace(session, { onlyPad: false, feet: circumstance.feet }, options);
  }
}

const heard = (session: PlannedSession | null, changes: readonly PlanChange[]): Today => ({ session, feetHeard: true, asks: [], changes });

/** Fewer (or more) minutes: the same parts without the reference takes, what comes first in the work first. */
function inMinutes(session: PlannedSession, asked: number): Today {
  const minutes = toQuarters(Math.min(MINUTES_RANGE.most, Math.max(MINUTES_RANGE.least, asked)));
  if (minutes === session.minutes) return heard(session, [{ code: 'plan-unchanged', params: {} }]);
  return heard({ ...session, minutes, blocks: shared(session, shareMinutes(minutes)) }, [shorter(session, minutes), ...referenceLeftOut(session)]);
}

/** Half the work, everything slower. */
function withTiredHands(session: PlannedSession): Today {
  const blocks = shared(session, shareMinutes(session.minutes, { workShare: TIRED.workShare })).map(slower);
  const minutes = blocks.reduce((sum, block) => sum + block.minutes, 0);
  const slow: PlanChange = { code: 'plan-slower', params: { tempoPercent: Math.round(100 * (1 - TIRED.tempoShare)) } };
  return heard({ ...session, minutes, blocks }, [shorter(session, minutes), slow, ...referenceLeftOut(session)]);
}

function slower(block: PlannedBlock): PlannedBlock {
  if (block.part === 'warmUp') return block;
  const tempoBpm = wholeBpm(block.tempoBpm * TIRED.tempoShare);
  const aim = { code: 'plan-aim-easy', params: { tempoBpm, perBeat: block.aim.params.perBeat } } as const;
  return { ...block, tempoBpm, aim, tempoReason: { code: 'plan-tempo-tired', params: {} } };
}

/** The blocks of a session given other minutes: warm-up, its different exercises of work in turn, its end. */
function shared(session: PlannedSession, minutes: SharedMinutes): readonly PlannedBlock[] {
  const of = (part: PlannedBlock['part']) => session.blocks.filter((block) => block.part === part);
  const work = of('work').filter((block, k, all) => all.findIndex(({ exerciseId }) => exerciseId === block.exerciseId) === k);
  return [
    ...of('warmUp').map((block) => ({ ...block, minutes: minutes.warmUp })),
    ...minutes.work.map((length, k) => ({ ...work[k % work.length]!, minutes: length })),
    ...of('use').map((block) => ({ ...block, minutes: minutes.use })),
  ];
}

const shorter = (session: PlannedSession, toMinutes: number): PlanChange => ({
  code: 'plan-minutes-changed',
  params: { fromMinutes: session.minutes, toMinutes },
});

const referenceLeftOut = (session: PlannedSession): readonly PlanChange[] =>
  session.blocks.some(({ part }) => part === 'reference') ? [{ code: 'plan-reference-left-out', params: {} }] : [];
