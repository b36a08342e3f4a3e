/** Today's session when the day is not as planned: only a pad, five minutes, tired hands, feet without a kit, something that hurts. */
import { type SharedMinutes, shareMinutes, toQuarters } from './minutes.ts';
import { BACK_AFTER, BACK_AFTER_HURT, MINUTES_RANGE, ONE_MORE_SHARE, SLOW_DAY_SHARE, TIRED } from './parameters.ts';
import { type FeetAnswer, fitToPlace, type PlaceOptions, type Today } from './place.ts';
import { isCheck, type PlannedBlock, type PlannedSession } from './plan.ts';
import type { PlanChange, PlanTempoReason } from './said.ts';
import { wholeBpm } from './starttempo.ts';

/** What the day is like. `feet` answers what to do with the feet where there is no kit; without it the question comes back. */
export type Circumstance =
  | { readonly kind: 'onlyPad'; readonly feet?: FeetAnswer }
  | { readonly kind: 'feetWithoutKit'; readonly feet?: FeetAnswer }
  | { readonly kind: 'minutes'; readonly minutes: number }
  | { readonly kind: 'handsTired' }
  /** All the minutes, everything slower. */
  | { readonly kind: 'slowDay' }
  /** Neighbours or sleepers: soft, on a pad. */
  | { readonly kind: 'quietHours'; readonly feet?: FeetAnswer }
  | { readonly kind: 'noMicrophone' }
  /** The first session after so many days away; `sinceHurt` days of practice after one that was stopped because something hurt, missing when none was. */
  | { readonly kind: 'backAfter'; readonly days: number; readonly sinceHurt?: number }
  /** One more session on a day that has had its own. */
  | { readonly kind: 'oneMore' }
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
    case 'slowDay':
      return onSlowDay(session);
    case 'quietHours':
      return quietly(fitToPlace(session, { onlyPad: true, feet: circumstance.feet }, options));
    case 'noMicrophone':
      return heard(withoutReference(session), [{ code: 'plan-no-microphone', params: {} }, ...(isCheck(session) ? [] : referenceLeftOut(session))]);
    case 'backAfter':
      return afterHurt(session, circumstance) ?? backAfter(session, circumstance.days);
    case 'oneMore':
      return oneMore(session);
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
  const tired: PlanTempoReason = { code: 'plan-tempo-tired', params: {} };
  const blocks = shared(withoutBursts(session), shareMinutes(session.minutes, { workShare: TIRED.workShare })).map((block) =>
    slower(block, TIRED.tempoShare, tired),
  );
  const minutes = blocks.reduce((sum, block) => sum + block.minutes, 0);
  return heard({ ...session, minutes, blocks }, [shorter(session, minutes), slow(TIRED.tempoShare), ...referenceLeftOut(session)]);
}

/** All the minutes, everything slower; a take at the tempo wanted would be none of a slow day. */
function onSlowDay(session: PlannedSession): Today {
  const blocks = withoutReference(withoutBursts(session)).blocks.map((block) =>
    slower(block, SLOW_DAY_SHARE, { code: 'plan-tempo-slow-day', params: {} }),
  );
  return heard({ ...session, blocks }, [slow(SLOW_DAY_SHARE), ...referenceLeftOut(session)]);
}

const slow = (share: number): PlanChange => ({ code: 'plan-slower', params: { tempoPercent: Math.round(100 * (1 - share)) } });

/** A block slower than planned, in the usual way of work. Warm-ups are slow anyway, and reference takes always the same. */
function slower(block: PlannedBlock, share: number, tempoReason: PlanTempoReason): PlannedBlock {
  if (block.part === 'warmUp' || block.part === 'reference') return block;
  const { way: _none, ...usual } = block;
  const tempoBpm = wholeBpm(block.tempoBpm * share);
  return { ...usual, tempoBpm, aim: { code: 'plan-aim-easy', params: { tempoBpm, perBeat: block.aim.params.perBeat } }, tempoReason };
}

/** Turns at the tempo wanted are nothing for such a day: they are work where the exercise stands. */
function withoutBursts(session: PlannedSession): PlannedSession {
  const blocks = session.blocks.map((block) => {
    const stands = session.blocks.find(
      ({ exerciseId, way, part }) => exerciseId === block.exerciseId && way !== 'bursts' && (part === 'use' || part === 'work'),
    );
    if (block.way !== 'bursts' || !stands) return block;
    const { way: _none, ...usual } = block;
    return { ...usual, tempoBpm: stands.tempoBpm, reason: { code: 'plan-reason-phrase', params: {} } as const };
  });
  return { ...session, blocks };
}

/** Volumes of a soft day say nothing about others, so no reference take is made. */
function quietly(today: Today): Today {
  if (!today.session || today.asks.length > 0) return today;
  const told = today.changes.filter(({ code }) => code !== 'plan-unchanged');
  return { ...today, session: withoutReference(today.session), changes: [{ code: 'plan-quiet', params: {} }, ...told] };
}

/** The reference takes played as work on the phrase, where it stands; the minutes stay. A check is one by the player's word too. */
function withoutReference(session: PlannedSession): PlannedSession {
  if (isCheck(session)) return session;
  const phraseId = session.blocks.find(({ part }) => part === 'reference')?.exerciseId;
  const stands = session.blocks.find(({ part, exerciseId }) => part === 'use' && exerciseId === phraseId);
  const played = (block: PlannedBlock): PlannedBlock => {
    const { tempoBpm, tempoReason, capBpm } = stands ?? block;
    const aim = { code: 'plan-aim-easy', params: { tempoBpm, perBeat: block.aim.params.perBeat } } as const;
    const cap = capBpm === undefined ? {} : { capBpm };
    return { ...block, ...cap, part: 'work', tempoBpm, tempoReason, aim, reason: { code: 'plan-reason-phrase', params: {} } };
  };
  return { ...session, blocks: session.blocks.map((block) => (block.part === 'reference' ? played(block) : block)) };
}

/** Slower after days away, the more the longer, and nothing new. */
function backAfter(session: PlannedSession, days: number): Today {
  const share = BACK_AFTER.find((step) => days >= step.days)?.tempoShare;
  // A check comes after weeks by intention.
  if (share === undefined || isCheck(session)) return heard(session, [{ code: 'plan-unchanged', params: {} }]);
  const blocks = withoutNew(session).blocks.map((here) => {
    const less = slower(here, share, { code: 'plan-tempo-back', params: { days } });
    // The tempo may come back within the session, so the aim stays what it was.
    return less === here ? here : { ...less, aim: { ...here.aim, params: { ...here.aim.params, tempoBpm: less.tempoBpm } } as PlannedBlock['aim'] };
  });
  return heard({ ...session, blocks }, [{ code: 'plan-back', params: { days } }]);
}

/** Slower still, and no faster within the session, after something hurt; null when that is long enough ago. A check is what it is. */
function afterHurt(session: PlannedSession, { days, sinceHurt }: { readonly days: number; readonly sinceHurt?: number }): Today | null {
  const hurtShare = sinceHurt === undefined ? undefined : BACK_AFTER_HURT[sinceHurt];
  if (hurtShare === undefined || isCheck(session)) return null;
  const share = Math.min(hurtShare, BACK_AFTER.find((step) => days >= step.days)?.tempoShare ?? 1);
  const usual = session.blocks.filter(({ part, way, reason }) => isWork(part) && way !== 'bursts' && reason.code !== 'plan-reason-new');
  const blocks = session.blocks.map((block) => {
    const easy = usual.find(({ exerciseId }) => exerciseId === block.exerciseId) ?? usual[0] ?? block;
    const here =
      block.part === 'warmUp' || usual.includes(block) ? block : { ...easy, part: 'work' as const, minutes: block.minutes, reason: again(easy) };
    return slower(here, share, { code: 'plan-tempo-hurt', params: {} });
  });
  const said: PlanChange = { code: 'plan-back-hurt', params: { tempoPercent: Math.round(100 * (1 - share)) } };
  return heard({ ...session, blocks }, [said, ...referenceLeftOut(session)]);
}

const isWork = (part: PlannedBlock['part']): boolean => part === 'work' || part === 'use';

/** What would have been new waits: its turns are played on what the day has else, or the phrase at its end. */
function withoutNew(session: PlannedSession): PlannedSession {
  const isNew = ({ part, reason }: PlannedBlock) => part === 'work' && reason.code === 'plan-reason-new';
  const known = session.blocks.find((block) => block.part === 'work' && !isNew(block)) ?? session.blocks.find(({ part }) => part === 'use');
  const blocks = session.blocks.map((block) =>
    known && isNew(block) ? { ...known, part: block.part, minutes: block.minutes, reason: again(known) } : block,
  );
  return { ...session, blocks };
}

const again = ({ part, reason }: PlannedBlock): PlannedBlock['reason'] => (part === 'use' ? { code: 'plan-reason-phrase', params: {} } : reason);

/** Half as long, nothing that began today counts as new again. */
function oneMore(session: PlannedSession): Today {
  const minutes = Math.max(MINUTES_RANGE.least, toQuarters(session.minutes * ONE_MORE_SHARE));
  const blocks = shared(session, shareMinutes(minutes)).map((block) =>
    block.reason.code === 'plan-reason-new' ? { ...block, reason: { code: 'plan-reason-learning', params: block.reason.params } as const } : block,
  );
  return heard({ ...session, minutes, blocks }, [{ code: 'plan-one-more', params: {} }]);
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
