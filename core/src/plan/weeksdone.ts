/** What was done over the days of a plan, or of several: sessions, days that were skipped, days away with what was written around them. */
import type { DiaryView } from '../diary/index.ts';
import { awayIn, awayTold, awayWritten, practised, shortened } from '../progress/index.ts';
import { plannedUpTo, type WeeksPlan } from './weeksplan.ts';
import type { OnWeeksPage } from './weekssaid.ts';

/** Stretches of days away that are told, the longest. Assumption: so that the page stays one sheet. */
const MOST_AWAY = 2;

/** Letters of a line beside days away. Assumption, for the same. */
const MOST_LETTERS = 70;

/** In the order in which it is read. */
export function doneIn(plan: WeeksPlan, view: DiaryView, today: string): OnWeeksPage[] {
  const { played, from, end } = plan;
  const span = { from, to: end };
  const { sessions, days, minutes } = practised(played, span);
  const byHand = played.filter((session) => session.byHand).length;
  const skipped = plannedUpTo(plan, { from }).filter((day) => !played.some((session) => session.day === day));
  const away = [...awayIn(plan.everything, { ...span, today })].sort((a, b) => b.days - a.days).slice(0, MOST_AWAY);
  const endedBy = (ended: 'stopped' | 'hurt') => [...new Set(played.filter((session) => session.ended === ended).map(({ day }) => day))].sort();
  const [stopped, hurt] = [endedBy('stopped'), endedBy('hurt')];
  return [
    { code: 'weeks-done', params: { sessions, days, minutes: Math.round(minutes), byHand } },
    ...(skipped.length > 0 ? [{ code: 'weeks-skipped', params: { days: skipped } } as const] : []),
    ...awayTold(
      view,
      away.sort((a, b) => (a.from < b.from ? -1 : 1)),
    ).map((one) => awayWritten(shortened(one, MOST_LETTERS))),
    ...(stopped.length > 0 ? [{ code: 'weeks-stopped', params: { days: stopped } } as const] : []),
    ...(hurt.length > 0 ? [{ code: 'weeks-hurt', params: { days: hurt } } as const] : []),
  ];
}
