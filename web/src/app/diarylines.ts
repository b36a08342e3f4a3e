/** What stands between and inside the days of the diary's page: days away, what happened to phrases and set-up, and what was heard as the last time. */
import { type DiaryDay, type DiaryView, type KnownRecord, phraseOfSession } from '@evenhand/core/diary';
import type { Statement } from '@evenhand/core/problem';
import { awayTold, type DaysWithout, everyAway, isReference, isTold, type SetupChange, setupChanges } from '@evenhand/core/progress';
import { practisedOf } from './results.ts';

/** Something that happened to a phrase, or became of the set-up, on a day. */
export type DayEvent =
  | { readonly of: 'begun' | 'closed' | 'paused' | 'open'; readonly name: string }
  | { readonly of: 'setup'; readonly change: SetupChange };

/** A line of the earlier days: a day with what is written on it, days away, or a day on which what was planned moved on. */
export interface PastLine {
  readonly day: string;
  readonly entry?: DiaryDay;
  readonly events: readonly DayEvent[];
  /** `noted`: something is written on one of them all the same. `moved`: something was planned on one of them. `told`: something is written on them or right around them. */
  readonly longer?: DaysWithout & { readonly noted: boolean; readonly moved: boolean; readonly told: boolean };
}

/**
 * The lines before today, the latest first.
 * @param away days of the plans whose session was missed.
 */
export function pastLines(view: DiaryView, { today, away }: { readonly today: string; readonly away: readonly string[] }): readonly PastLine[] {
  const earlier = view.days.filter(({ day }) => day < today);
  const events = eventsByDay(view);
  const written = new Set(earlier.map(({ day }) => day));
  const stretches = awayTold(view, everyAway(practisedOf(view), today));
  const isIn =
    ({ from, to }: DaysWithout) =>
    (day: string) =>
      day >= from && day <= to;
  const missed = [...new Set(away)].filter((day) => day < today && !written.has(day));
  const lines: readonly PastLine[] = [
    ...earlier.map((entry) => ({ day: entry.day, entry, events: events.get(entry.day) ?? [] })),
    ...[...events].filter(([day]) => day < today && !written.has(day)).map(([day, all]) => ({ day, events: all })),
    ...missed.filter((day) => !stretches.some((one) => isIn(one)(day)) && !events.has(day)).map((day) => ({ day, events: [] })),
    ...stretches.map((one) => ({
      day: one.to,
      events: [],
      longer: { from: one.from, to: one.to, days: one.days, told: isTold(one), noted: [...written].some(isIn(one)), moved: missed.some(isIn(one)) },
    })),
  ];
  return [...lines].sort((a, b) => (a.day < b.day ? 1 : a.day > b.day ? -1 : Number(!a.longer) - Number(!b.longer)));
}

/** Months with a line, the latest first, each as `2026-11`. */
export const monthsOf = (lines: readonly PastLine[]): readonly string[] => [...new Set(lines.map(({ day }) => day.slice(0, 7)))];

/** Lines of a month (of all unless one is given); of `own` alone those with words of the player's own, or on which something began, ended or changed. */
export const chosenLines = (lines: readonly PastLine[], { month, own }: { readonly month: string; readonly own: boolean }): readonly PastLine[] =>
  lines.filter(({ day, entry, events }) => day.startsWith(month) && (!own || events.length > 0 || (entry?.notes.length ?? 0) > 0));

/**
 * Days that are written on already and begin here only later, the latest first: written while days began at an earlier hour, or where it was later.
 * Whatever was written is shown at once, and not when its day comes.
 */
export function linesAhead(view: DiaryView, today: string): readonly PastLine[] {
  const events = eventsByDay(view);
  const days = new Set([...view.days.map(({ day }) => day), ...events.keys()].filter((day) => day > today));
  return [...days]
    .sort()
    .reverse()
    .map((day) => {
      const entry = view.days.find((one) => one.day === day);
      return { day, ...(entry ? { entry } : {}), events: events.get(day) ?? [] };
    });
}

/** What happened to phrases and the set-up, by day. Of a phrase only its last change is known. */
export function eventsByDay({ stickingPoints, setups }: Pick<DiaryView, 'stickingPoints' | 'setups'>): ReadonlyMap<string, readonly DayEvent[]> {
  const all = new Map<string, DayEvent[]>();
  const put = (day: string, event: DayEvent) => all.set(day, [...(all.get(day) ?? []), event]);
  for (const { day, body } of stickingPoints) {
    put(day, { of: 'begun', name: nameOf(body) });
    if (body.state && (body.state.is !== 'open' || body.state.day !== day)) put(body.state.day, { of: body.state.is, name: nameOf(body) });
  }
  for (const change of setupChanges(setups)) put(change.day, { of: 'setup', change });
  return all;
}

const nameOf = ({ name, sticking }: KnownRecord<'stickingPoint'>['body']): string => (name === '' ? sticking : name);

/** What the phrase of a session is called; null when it counts for none. */
export function phraseName(session: KnownRecord<'session'>, { stickingPoints }: Pick<DiaryView, 'stickingPoints'>): string | null {
  const id = phraseOfSession(session, stickingPoints);
  const point = stickingPoints.find((one) => one.id === id);
  return point ? nameOf(point.body) : null;
}

/** Days that are looked back on for the last time something was played. Assumption: what is longer ago is news again. */
const LOOK_BACK_DAYS = 21;

type Block = KnownRecord<'block'>;

/** Why the tempo of a block goes down; null where it does not. */
export function whySlower({ body: { nextTempo, tempoBpm } }: Block): Statement | null {
  return nextTempo && nextTempo.tempoBpm < tempoBpm ? nextTempo.reason : null;
}

/**
 * Blocks of which the same is said as the last time the same was played, and those of which something else is, or whose tempo goes down.
 * @param before earlier days, the latest first.
 * @param told what is said of a block; empty when nothing was heard.
 */
export function asLastTime(blocks: readonly Block[], before: readonly DiaryDay[], told: (block: Block) => string) {
  const recent = before.slice(0, LOOK_BACK_DAYS).flatMap(({ sessions }) => sessions.flatMap((entry) => entry.blocks));
  const isSame = (block: Block) => {
    const last = recent.find((one) => one.body.exercise.id === block.body.exercise.id && isReference(one) === isReference(block));
    return last !== undefined && told(block) !== '' && told(last) === told(block) && !whySlower(block);
  };
  return { news: blocks.filter((block) => !isSame(block)), same: blocks.filter(isSame) };
}
