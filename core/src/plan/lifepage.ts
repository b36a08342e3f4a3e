/** The whole way of a phrase over all its plans, on one sheet: what was aimed at, done plan by plan, heard from first to last, and decided. */
import { addDays, daysBetween } from '../day.ts';
import { type DiaryRecord, type DiaryView, type KnownRecord, upgrade } from '../diary/index.ts';
import { knownBefore, practised } from '../progress/index.ts';
import { weeksDecision } from './weeksdecision.ts';
import { doneIn } from './weeksdone.ts';
import { setupsChanged, weeksHeard } from './weeksheard.ts';
import type { WeeksPage } from './weekspage.ts';
import { type PlayedSession, plannedUpTo, type WeeksAsked, type WeeksPlan, weeksPlan } from './weeksplan.ts';
import type { OnWeeksPage } from './weekssaid.ts';

/** One plan of the phrase, from its first day to the day before the next one's. */
export interface PlanStage {
  readonly from: string;
  readonly to: string;
  readonly goalBpm: number;
  /** Different days practised, and days planned that are over or played. */
  readonly days: number;
  readonly plannedDays: number;
  /** Not rounded. */
  readonly minutes: number;
  /** The clean tempo as it was known at its end; null where it was not known yet. */
  readonly known: { readonly bpm: number; readonly lowBpm: number; readonly highBpm: number } | null;
}

/** The sheet: parts as on the page of the weeks, plans in place of weeks. */
export interface LifePage extends Pick<WeeksPage, 'name' | 'from' | 'to' | 'aimed' | 'done' | 'heard' | 'setup' | 'decision'> {
  readonly perBeat: number;
  /** In order of time. */
  readonly stages: readonly PlanStage[];
}

type Revision = KnownRecord<'plan'>;

/** A revision that begins so soon after the one before is the same plan. Assumption: a plan is for weeks. */
const SAME_PLAN_DAYS = 7;
/** Plans in the table, the latest, so that it stays one sheet. Assumption. */
const MOST_PLANS = 10;

/**
 * The page for the phrase of a plan; null when there is no plan with a session.
 * @param revisions what the plan that stands replaced, and what that replaced, and so on, in any order; without any the plan that stands is all there is.
 */
export function lifePage(view: DiaryView, asked: WeeksAsked, revisions: readonly Revision[] = []): LifePage | null {
  const last = weeksPlan(view, asked);
  if (!last) return null;
  const plans = plansOf([...revisions.filter(({ id }) => id !== last.record.id), last.record], last.record.body.stickingPointId);
  const played = [...last.earlier, ...last.played];
  const from = [...played, ...plans].map((one) => ('day' in one ? one.day : one.from)).sort()[0]!;
  const plannedDays = [...new Set(plans.flatMap((plan) => plan.planned))].sort();
  const whole: WeeksPlan = { ...last, from, played, earlier: [], plannedDays };
  const stages = plans.map((plan, k) => stageOf(plan, { whole, next: plans[k + 1]?.from ?? null }));
  const shown = stages.slice(-MOST_PLANS);
  return {
    ...{ name: last.point?.body.name ?? '', from, to: last.end, perBeat: last.phrase?.perBeat ?? 1, stages: shown },
    aimed: aimedAt(last, stages),
    done: [
      ...doneIn(whole, view, asked.today),
      ...earlierThan(plans[0]!.from, played),
      ...(stages.length > shown.length ? [notShown(stages.length - shown.length)] : []),
    ],
    heard: weeksHeard(whole, view),
    setup: setupsChanged(whole, view),
    decision: weeksDecision(last, asked.today),
  };
}

/** The same, asking for each revision that the plan goes back to, one after the other. @param recordOf null for a record that is not there. */
export async function lifePageBy(
  view: DiaryView,
  asked: WeeksAsked,
  recordOf: (id: string) => Promise<DiaryRecord | null>,
): Promise<LifePage | null> {
  const last = weeksPlan(view, asked);
  const before: Revision[] = [];
  const seen = new Set<string>();
  for (let id = last?.record.body.replaces ?? null; id !== null && !seen.has(id); ) {
    seen.add(id);
    const record = await recordOf(id);
    const known = record && upgrade(record);
    if (known?.kind !== 'plan') break;
    before.push(known);
    id = known.body.replaces;
  }
  return lifePage(view, asked, before);
}

interface LivedPlan {
  readonly from: string;
  readonly goalBpm: number;
  /** Days for which a session was planned. */
  readonly planned: readonly string[];
}

/** Revisions as plans: one that begins when the one before began says what became of it. Checks weeks later are no plan. */
function plansOf(revisions: readonly Revision[], stickingPointId: string | null): readonly LivedPlan[] {
  const own = revisions.filter(({ body }) => body.stickingPointId === stickingPointId);
  const inOrder = [...own].sort((a, b) => a.made.wallMs - b.made.wallMs || a.made.counter - b.made.counter);
  const plans: LivedPlan[] = [];
  for (const { body } of inOrder) {
    const isCheck = ({ blocks }: (typeof body.sessions)[number]) => blocks.some(({ reason }) => reason.code === 'plan-reason-check');
    const planned = [...body.sessions.filter((session) => !isCheck(session)).map(({ date }) => date), ...body.away].sort();
    const [first] = planned;
    if (first === undefined) continue;
    const before = plans.at(-1);
    const isSame = before !== undefined && daysBetween(before.from, first) < SAME_PLAN_DAYS;
    if (isSame) plans.pop();
    plans.push({ from: isSame && before.from < first ? before.from : first, goalBpm: body.goalBpm, planned });
  }
  return plans;
}

function stageOf({ from, goalBpm, planned }: LivedPlan, { whole, next }: { readonly whole: WeeksPlan; readonly next: string | null }): PlanStage {
  const to = next === null ? whole.end : addDays(next, -1);
  const inside = planned.filter((day) => day <= to);
  const { days, minutes } = practised(whole.played, { from, to });
  const known = whole.phrase && knownBefore(whole.results, whole.phrase.id, addDays(to, 1));
  const tempo = known && known.day >= from ? { bpm: known.median, lowBpm: known.low90, highBpm: known.high90 } : null;
  return { from, to, goalBpm, days, plannedDays: plannedUpTo({ ...whole, plannedDays: inside }, { from }).length, minutes, known: tempo };
}

function aimedAt({ phrase, planned }: WeeksPlan, stages: readonly PlanStage[]): OnWeeksPage[] {
  const goals = [...new Set(stages.map(({ goalBpm }) => goalBpm))];
  return [
    ...(phrase ? [{ code: 'weeks-aim', params: { sticking: phrase.sticking, goalBpm: planned.goalBpm, perBeat: phrase.perBeat } } as const] : []),
    { code: 'life-plans', params: { plans: stages.length, goals } },
  ];
}

/** What was played before the first plan. */
function earlierThan(from: string, played: readonly PlayedSession[]): OnWeeksPage[] {
  const before = played.filter(({ day }) => day < from);
  const first = before.map(({ day }) => day).sort()[0];
  if (first === undefined) return [];
  const { sessions, days, minutes } = practised(before, { from: first, to: from });
  return [{ code: 'life-before-plans', params: { from: first, sessions, days, minutes: Math.round(minutes) } }];
}

const notShown = (plans: number): OnWeeksPage => ({ code: 'life-more-plans', params: { plans } });
