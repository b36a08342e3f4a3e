/** The figures of one week, to be set beside those of another: days, minutes, clean runs, clean tempo, and the cell. */
import { addDays } from '../day.ts';
import { type Interval, wilson } from '../measurement/index.ts';
import { type CellRow, cellWeeks } from './cellweeks.ts';
import { type PracticeFigures, type PractisedSession, practised } from './practised.ts';
import type { ExerciseResult } from './tempocurve.ts';
import type { Figure } from './thenandnow.ts';
import { type WeekTempo, weekTempi } from './weektempi.ts';

/** What the figures are made of; any days may be among them. */
export interface WeekAsked {
  readonly sessions: readonly PractisedSession[];
  readonly results: readonly ExerciseResult[];
  readonly phraseId: string | null;
  /** Rows of the blocks of the phrase. */
  readonly cell: readonly CellRow[];
}

/** What failed of an exercise in a week. */
export interface FailingExercise {
  readonly exerciseId: string;
  readonly clean: number;
  readonly runs: number;
}

export interface WeekFigures extends PracticeFigures {
  /** First day, a Monday. */
  readonly from: string;
  /** Of all exercises: clean runs, runs, and the 95 % range of their share; null without runs. */
  readonly clean: number;
  readonly runs: number;
  readonly share: Interval | null;
  /** Exercises with most runs that were not clean, those that make up more than half of them; three at most. */
  readonly failing: readonly FailingExercise[];
  /** Of the phrase, by this week's results alone. */
  readonly tempo: WeekTempo | null;
  readonly space: Figure | null;
  readonly stepDb: Figure | null;
}

/** @param from the first day of the week. */
export function weekFigures(from: string, { sessions, results, phraseId, cell }: WeekAsked): WeekFigures {
  const to = addDays(from, 6);
  const inside = <Item extends { readonly day: string }>(items: readonly Item[]) => items.filter(({ day }) => day >= from && day <= to);
  const counted = inside(results);
  const sum = (of: (result: ExerciseResult) => number) => counted.reduce((total, result) => total + of(result), 0);
  const [clean, runs] = [sum((result) => result.clean), sum((result) => result.runs)];
  const [week] = cellWeeks(inside(cell));
  return {
    from,
    ...practised(sessions, { from, to }),
    ...{ clean, runs, share: runs > 0 ? wilson(clean, runs) : null },
    failing: failingIn(counted),
    tempo: phraseId === null ? null : (weekTempi(counted, phraseId)[0] ?? null),
    space: week?.space ?? null,
    stepDb: week?.stepDb ?? null,
  };
}

/** Assumption: more than three are not read. */
const MOST_FAILING = 3;

function failingIn(results: readonly ExerciseResult[]): readonly FailingExercise[] {
  const sums = new Map<string, FailingExercise>();
  for (const { exerciseId, clean, runs } of results) {
    const before = sums.get(exerciseId) ?? { exerciseId, clean: 0, runs: 0 };
    sums.set(exerciseId, { exerciseId, clean: before.clean + clean, runs: before.runs + runs });
  }
  const failed = ({ clean, runs }: FailingExercise) => runs - clean;
  const sorted = [...sums.values()].filter((one) => failed(one) > 0).sort((a, b) => failed(b) - failed(a));
  const all = sorted.reduce((sum, one) => sum + failed(one), 0);
  const needed = sorted.findIndex((_, k) => 2 * sorted.slice(0, k + 1).reduce((sum, one) => sum + failed(one), 0) > all) + 1;
  return sorted.slice(0, Math.min(MOST_FAILING, needed));
}
