/** Days away with what the player wrote around them: just before, meanwhile, and on coming back. No reason is claimed beyond that. */
import { addDays } from '../day.ts';
import { type DiaryDay, type DiaryView, isOpenOn } from '../diary/index.ts';
import { AWAY_LINES } from './parameters.ts';
import type { DaysWithout } from './practised.ts';
import type { AwayLines, AwayWritten } from './said.ts';

/** A stretch of days away with the lines that stand around it. */
export interface AwayTold extends DaysWithout {
  /** Lines of the player's own, each in order of time: of the days just before, of the days themselves, and of the day of coming back. */
  readonly before: readonly string[];
  readonly meanwhile: readonly string[];
  readonly back: readonly string[];
  /** The session before it was ended because something hurt. */
  readonly hurt: boolean;
  /** No phrase was worked on: the last one was closed or put aside, and the next not begun. */
  readonly idle: boolean;
}

/** Each stretch with its lines, in the order given. */
export function awayTold(
  { days, stickingPoints }: Pick<DiaryView, 'days' | 'stickingPoints'>,
  stretches: readonly DaysWithout[],
): readonly AwayTold[] {
  const byDay = new Map(days.map((entry) => [entry.day, entry]));
  return stretches.map((stretch) => {
    const { from, to } = stretch;
    const near = daysFrom(addDays(from, -AWAY_LINES.daysBefore), AWAY_LINES.daysBefore).flatMap((day) => byDay.get(day) ?? []);
    const inside = daysFrom(from, stretch.days).flatMap((day) => byDay.get(day) ?? []);
    return {
      ...stretch,
      before: linesOf(near).slice(-AWAY_LINES.most),
      meanwhile: linesOf(inside).slice(0, AWAY_LINES.most),
      back: linesOf([byDay.get(addDays(to, 1))].flatMap((day) => day ?? [])).slice(0, AWAY_LINES.most),
      hurt: near.flatMap(({ sessions }) => sessions).at(-1)?.session.body.ended === 'hurt',
      idle: stickingPoints.length > 0 && !stickingPoints.some((point) => isOpenOn(point, to)),
    };
  });
}

/** Whether anything stands beside a stretch that may say why. */
export const isTold = ({ before, meanwhile, back, hurt, idle }: AwayTold): boolean =>
  hurt || idle || before.length + meanwhile.length + back.length > 0;

/** A stretch as it is said. */
export const awayWritten = ({ from, to, days, ...told }: AwayTold): AwayWritten => ({
  code: 'progress-away-written',
  params: { from, to, days, ...awayLines(told).params },
});

/** The same with the nearest line of each kind alone, and no more letters of it. */
export function shortened(told: AwayTold, mostLetters: number): AwayTold {
  const cut = (lines: readonly string[]) => lines.map((line) => (line.length <= mostLetters ? line : `${line.slice(0, mostLetters - 1).trimEnd()}…`));
  return { ...told, before: cut(told.before.slice(-1)), meanwhile: cut(told.meanwhile.slice(0, 1)), back: cut(told.back.slice(0, 1)) };
}

/** The lines alone. */
export const awayLines = ({ before, meanwhile, back, hurt, idle }: Omit<AwayTold, keyof DaysWithout>): AwayLines => ({
  code: 'progress-away-lines',
  params: { before, meanwhile, back, hurt, idle },
});

const daysFrom = (from: string, count: number): readonly string[] => Array.from({ length: count }, (_, k) => addDays(from, k));

const linesOf = (days: readonly DiaryDay[]): readonly string[] =>
  days.flatMap(({ notes }) => notes.map(({ body }) => body.text.trim())).filter((text) => text !== '');
