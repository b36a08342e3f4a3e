/** Revisions of plans: what is kept when days went by, a session is over, something is agreed, a phrase is closed or worked on again. */
import { type DiaryView, editOf, type RecordDraft } from '@evenhand/core/diary';
import type { Family } from '@evenhand/core/exercise';
import { closePlan, isCheck, makePlan, type Plan, type PlanChange, planAgain, type Refitted, reopenPlan, withClosing } from '@evenhand/core/plan';
import type { Problem } from '@evenhand/core/problem';
import { resultsOf } from '@evenhand/core/progress';
import { caughtUp, checkedLater, comesUp, type Material, plannedAgain, requestAgain, waitsForPlan } from './planning.ts';
import { knownOf, practisedDays } from './results.ts';
import type { Room } from './room.ts';
import { type Agreed, daysOfPlan, type KeptWith, planBody, pointOf, type StandingPlan, standingPlans, stateOf } from './savedplan.ts';

export interface PlanKeeper {
  /** Keeps a revision of a plan. */
  keep(plan: Plan, made: KeptWith): Promise<boolean>;
  /** Moves what was missed on in every plan, and plans again where a session that is over was not planned with yet; gives what moved, by phrase. */
  catchUp(diary: DiaryView): Promise<ReadonlyMap<string | null, readonly PlanChange[]>>;
  /** Plans what is left with what is known now. */
  again(diary: DiaryView, plan: StandingPlan): Promise<Refitted | null>;
  /** An exercise was dropped: plans whose sessions to come have it are planned again without it. */
  dropped(diary: DiaryView, exerciseId: string): Promise<void>;
  /** Agrees on caps, ways or own blocks; gives what is wrong with them, and then keeps nothing. */
  agree(diary: DiaryView, plan: StandingPlan, change: Partial<Agreed>): Promise<readonly Problem[]>;
  /** Chooses the families that count for closing, null for all; gives what that changed in the plan: a check, where everything holds now. */
  setClosing(diary: DiaryView, plan: StandingPlan, families: readonly Family[] | null): Promise<readonly PlanChange[]>;
  /** Closes the phrase of a plan, puts it aside, or works on it again; gives what that changed in the plan. */
  setPoint(diary: DiaryView, plan: StandingPlan, is: 'open' | 'paused' | 'closed'): Promise<readonly PlanChange[]>;
}

interface Stand {
  append(drafts: readonly RecordDraft[]): Promise<boolean>;
  /** The material of a plan's phrase as it was kept. */
  materialOf(plan: StandingPlan): Material | null;
}

/** @param stand where the diary is written. */
export function planKeeper(room: Pick<Room, 'writtenNow'>, stand: Stand): PlanKeeper {
  const today = () => room.writtenNow().day;
  const lived = (diary: DiaryView, plan: StandingPlan) => ({ done: practisedDays(daysOfPlan(diary, plan)), today: today() });
  const draft = (plan: Plan, made: KeptWith): RecordDraft => ({
    kind: 'plan',
    ...room.writtenNow(),
    body: planBody(plan, made),
  });
  const keep = (plan: Plan, made: KeptWith) => stand.append([draft(plan, made)]);
  const withAll = (plan: StandingPlan, material: Material): StandingPlan => ({
    ...plan,
    exercises: [...plan.exercises, ...material.exercises, ...plan.agreed.own.map(({ exercise }) => exercise)],
  });

  async function again(diary: DiaryView, plan: StandingPlan): Promise<Refitted | null> {
    const material = stand.materialOf(plan);
    if (!material) return null;
    const results = resultsOf(diary);
    const planned = plannedAgain(plan, material, { ...lived(diary, plan), known: knownOf(results) });
    const checked = checkedLater(planned ? { ...plan, plan: planned.plan } : plan, material, { today: today(), results });
    const last = checked ?? planned;
    if (!last || !(await keep(last.plan, withAll(plan, material)))) return null;
    return { plan: last.plan, changes: [...(planned?.changes ?? []), ...(checked?.changes ?? [])] };
  }

  async function catchUpOne(diary: DiaryView, plan: StandingPlan): Promise<readonly PlanChange[]> {
    const state = stateOf(diary, plan);
    const record = diary.plans.find(({ id }) => id === plan.id);
    // What was missed moves on with it, in one revision.
    const { done } = lived(diary, plan);
    const refitted = caughtUp(plan, lived(diary, plan));
    // What was agreed holds for days, so a session that moves to another day is made for that day.
    const agreed = refitted !== null && [...plan.agreed.caps, ...plan.agreed.ways, ...plan.agreed.clicks].length > 0;
    const planned = state === 'open' && (agreed || (record && waitsForPlan(diary, record))) ? await again(diary, plan) : null;
    if (planned) return planned.changes.filter(({ code }) => code !== 'plan-made-again');
    const checksAlone = plan.plan.sessions.filter(({ date }) => !done.includes(date)).every(isCheck);
    if (state === 'paused' || (state === 'closed' && !checksAlone)) return [];
    return refitted && (await keep(refitted.plan, plan)) ? refitted.changes : [];
  }

  return {
    keep,
    again,
    async catchUp(diary) {
      const moved = new Map<string | null, readonly PlanChange[]>();
      for (const plan of standingPlans(diary)) moved.set(plan.stickingPointId, await catchUpOne(diary, plan));
      return moved;
    },
    async dropped(diary, exerciseId) {
      for (const plan of standingPlans(diary)) {
        if (stateOf(diary, plan) === 'open' && comesUp(plan.plan, exerciseId, today())) await again(diary, plan);
      }
    },
    async agree(diary, plan, change) {
      const material = stand.materialOf(plan);
      if (!material) return [];
      const next = { ...plan, agreed: { ...plan.agreed, ...change } };
      const request = requestAgain(next, material, { today: today(), known: knownOf(resultsOf(diary)) });
      const { value, problems } = makePlan(request);
      if (!value) return problems;
      const revised = planAgain(plan.plan, request, { ...lived(diary, plan), planId: plan.id }).plan;
      await keep({ ...revised, replaces: plan.id }, withAll(next, material));
      return [];
    },
    async setClosing(diary, plan, families) {
      const chosen = { ...plan, plan: { ...withClosing(plan.plan, families), replaces: plan.id } };
      const material = stateOf(diary, plan) === 'open' ? stand.materialOf(plan) : null;
      const checked = material && checkedLater(chosen, material, { today: today(), results: resultsOf(diary) });
      const kept = checked ? await keep(checked.plan, withAll(plan, material)) : await keep(chosen.plan, plan);
      return (kept && checked?.changes) || [];
    },
    async setPoint(diary, plan, is) {
      const point = pointOf(diary, plan);
      if (!point) return [];
      const now = room.writtenNow();
      const edit: RecordDraft = { kind: 'edit', ...now, body: editOf(point, 'state', { is, day: now.day }) };
      const material = stand.materialOf(plan);
      const revise = is === 'closed' ? closePlan : is === 'open' && stateOf(diary, plan) === 'closed' ? reopenPlan : null;
      const request = material && requestAgain(plan, material, { today: now.day, known: knownOf(resultsOf(diary)) });
      const revised = revise && request && revise(plan.plan, request, { ...lived(diary, plan), planId: plan.id });
      await stand.append(revised && material ? [edit, draft(revised.plan, withAll(plan, material))] : [edit]);
      return revised?.changes ?? [];
    },
  };
}
