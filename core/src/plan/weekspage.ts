/** The page of the weeks: what was aimed at, done and heard for a phrase, what changed in the set-up, the decision and why. */
import { addDays, daysBetween, startOfWeek } from '../day.ts';
import type { DiaryView } from '../diary/index.ts';
import { practised } from '../progress/index.ts';
import { parentLineOf } from './parentline.ts';
import { weeksDecision } from './weeksdecision.ts';
import { doneIn } from './weeksdone.ts';
import { setupsChanged, weeksHeard } from './weeksheard.ts';
import { isClosed, plannedUpTo, type WeeksAsked, type WeeksPlan, weeksPlan } from './weeksplan.ts';
import type { OnWeeksPage, ParentLine } from './weekssaid.ts';

/** A week of the calendar, from Monday. */
export interface WeekDone {
  readonly from: string;
  /** Different days practised, and days for which a session was planned that are over or played. */
  readonly days: number;
  readonly plannedDays: number;
  readonly sessions: number;
  /** Not rounded. */
  readonly minutes: number;
  /** Sessions of these that were written down by hand. */
  readonly byHand: number;
}

/** Each part in the order in which it is read. */
export interface WeeksPage {
  /** What the phrase is called; empty when it has no name. */
  readonly name: string;
  /** First and last day told of. */
  readonly from: string;
  readonly to: string;
  readonly aimed: readonly OnWeeksPage[];
  readonly done: readonly OnWeeksPage[];
  readonly weeks: readonly WeekDone[];
  readonly heard: readonly OnWeeksPage[];
  readonly setup: readonly OnWeeksPage[];
  readonly decision: readonly OnWeeksPage[];
  /** null where the weeks were over before the last seven days. */
  readonly parent: ParentLine | null;
}

/** Rows at most, the latest, so that the page stays one sheet. Assumption. */
const MOST_WEEKS = 8;
/** The page for a plan of a diary; null when there is no plan with a session. */
export function weeksPage(view: DiaryView, asked: WeeksAsked): WeeksPage | null {
  const plan = weeksPlan(view, asked);
  if (!plan) return null;
  const all = weeksOf(plan);
  const weeks = all.slice(-MOST_WEEKS);
  const before = all.length - weeks.length;
  return {
    ...{ name: plan.point?.body.name ?? '', from: plan.from, to: plan.end, weeks },
    aimed: aimedAt(plan),
    done: [
      ...doneIn(plan, view, asked.today),
      ...earlierOf(plan),
      ...(before > 0 ? [{ code: 'weeks-before', params: { weeks: before } } as const] : []),
    ],
    heard: weeksHeard(plan, view),
    setup: setupsChanged(plan, view),
    decision: weeksDecision(plan, asked.today),
    parent: parentLineOf(plan, view, asked.today),
  };
}

function aimedAt({ phrase, planned, point, record, sessions, plannedDays, from, to }: WeeksPlan): OnWeeksPage[] {
  const { goalBpm } = planned;
  const { minutes, weekdays } = record.body;
  // What was still to come went when it was closed.
  const closed = isClosed(point);
  const asked = { sessions: closed ? plannedDays.length : sessions.length, daysAWeek: weekdays.length, minutes, from, to, closed };
  return [
    ...(phrase ? [{ code: 'weeks-aim', params: { sticking: phrase.sticking, goalBpm, perBeat: phrase.perBeat } } as const] : []),
    { code: 'weeks-planned', params: asked },
  ];
}

/** What was played of the phrase before this plan. */
function earlierOf({ earlier }: WeeksPlan): OnWeeksPage[] {
  const from = earlier.map(({ day }) => day).sort()[0];
  if (from === undefined) return [];
  const { sessions, days, minutes } = practised(earlier, { from, to: '9999-12-31' });
  return [{ code: 'weeks-earlier', params: { from, sessions, days, minutes: Math.round(minutes) } }];
}

function weeksOf(plan: WeeksPlan): readonly WeekDone[] {
  const first = startOfWeek(plan.from);
  const count = Math.floor(daysBetween(first, plan.end) / 7) + 1;
  const planned = plannedUpTo(plan, { from: plan.from });
  return Array.from({ length: Math.max(0, count) }, (_, k) => {
    const from = addDays(first, 7 * k);
    const to = addDays(from, 6);
    const inside = ({ day }: { readonly day: string }) => day >= from && day <= to;
    const plannedDays = planned.filter((day) => inside({ day })).length;
    const byHand = plan.played.filter((session) => session.byHand && inside(session)).length;
    return { from, plannedDays, byHand, ...practised(plan.played, { from, to }) };
  });
}
