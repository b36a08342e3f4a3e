/** One sentence for a parent about the last seven days: days, minutes, what to listen for; kind, without figures of time or volume. */
import { addDays } from '../day.ts';
import type { DiaryView, SavedFinding } from '../diary/index.ts';
import { blocksOf } from '../progress/index.ts';
import { daysOfPhrase, plannedUpTo, type WeeksAsked, type WeeksPlan, weekEnding, weeksPlan } from './weeksplan.ts';
import type { ListenFor, ParentLine } from './weekssaid.ts';

/** A finding older than so many days is not told as what to listen for. Assumption: longer ago than a usual plan's reference takes lie apart, twice. */
const LISTEN_DAYS = 14;

/** The line for the seven days up to today, or up to yesterday while nothing was played today; null without a plan, and for weeks that were over before. */
export function parentLine(view: DiaryView, asked: WeeksAsked): ParentLine | null {
  const plan = weeksPlan(view, asked);
  return plan && parentLineOf(plan, view, asked.today);
}

/** The same of a plan that was looked up. */
export function parentLineOf(plan: WeeksPlan, view: DiaryView, today: string): ParentLine | null {
  const last = plan.played.some(({ day }) => day === today) ? today : addDays(today, -1);
  const from = weekEnding(last);
  const week = plan.played.filter(({ day }) => day >= from && day <= last);
  if (week.length === 0 && plan.plannedUntil < from) return null;
  const byDay = new Map<string, number>();
  for (const { day, minutes } of week) byDay.set(day, (byDay.get(day) ?? 0) + minutes);
  const total = [...byDay.values()].reduce((sum, minutes) => sum + minutes, 0);
  const { listen, limb } = listenFor(plan, view, today);
  return {
    code: 'weeks-parent',
    params: {
      ...{ days: byDay.size, plannedDays: plannedUpTo(plan, { from }).length },
      ...{ minutes: byDay.size === 0 ? 0 : Math.round(total / byDay.size), listen, limb },
      hurt: week.some(({ ended }) => ended === 'hurt'),
    },
  };
}

/** From what was found in the latest block with a finding. */
function listenFor({ record, point }: WeeksPlan, view: DiaryView, today: string): { readonly listen: ListenFor; readonly limb: string } {
  if ((point?.body.shapes?.length ?? 0) > 0) return { listen: 'as-meant', limb: '' };
  const since = addDays(today, -LISTEN_DAYS);
  const blocks = blocksOf({ ...view, ...daysOfPhrase(view, record.body.stickingPointId) });
  const told = blocks.filter(({ day, body }) => day > since && day <= today && (body.heard?.findings.length ?? 0) > 0).at(-1);
  const finding = told?.body.heard?.findings[0];
  return { listen: finding ? wordFor(finding) : '', limb: textOf(finding?.params.limb) };
}

function wordFor({ code, params }: SavedFinding): ListenFor {
  if (code === 'nothing-stands-out') return 'even';
  if (code === 'pair-uneven' || textOf(params.ofDouble) !== '') return textOf(params.limb) === '' ? 'even' : 'two-equal';
  if (code !== 'cause-fits' && code !== 'place-off') return '';
  if (Number(params.missed ?? 0) > 0) return 'all-there';
  if (params.time === 'even' && params.volume !== 'even') return 'volume';
  return 'time';
}

const textOf = (value: unknown): string => (typeof value === 'string' ? value : '');
