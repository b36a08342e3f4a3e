/** What rose with what: how an exercise moved in the weeks in which a phrase rose, and in the others. Nothing is said of causes. */
import { daysBetween } from '../day.ts';
import { mean } from '../measurement/index.ts';
import { FEWEST_STEPS, MOST_STEP_DAYS, RISEN_SURE } from './parameters.ts';
import type { ExerciseResult } from './tempocurve.ts';
import { type WeekTempo, weekTempi } from './weektempi.ts';

/** The exercises of one row: one, or all of a family. */
export interface RowAsked {
  readonly key: string;
  readonly exerciseIds: readonly string[];
}

/** `together`: more often than by chance, with all rows in mind. `few`: too few weeks to say. */
export type RisenWord = 'together' | 'notSure' | 'few';

export interface RisenRow {
  readonly key: string;
  /** Times that a week could be held against an earlier one for both. */
  readonly steps: number;
  /** Of these, those in which the phrase rose, and those in which both did. */
  readonly roseSteps: number;
  readonly togetherSteps: number;
  /** Mean change of the exercise from week to week, as a share, while the phrase rose and otherwise; null without such weeks. */
  readonly whileRising: number | null;
  readonly otherwise: number | null;
  readonly word: RisenWord;
}

/**
 * A row for each of `rows`, in their order.
 *
 * Both are known from each week's own results. Whether they rose in the same weeks more often than chance makes them is Fisher's exact test of the four
 * counts, one-sided, at 5 % for all rows together (Bonferroni): both rising most of the time is no agreement.
 * @param results of any exercises, in any order.
 * @source [Fisher1935]
 */
export function risenWith(results: readonly ExerciseResult[], phraseId: string, rows: readonly RowAsked[]): readonly RisenRow[] {
  const phrase = weekTempi(results, phraseId);
  const ids = [...new Set(rows.flatMap(({ exerciseIds }) => exerciseIds))].filter((id) => id !== phraseId);
  const known = new Map(ids.map((id) => [id, weekTempi(results, id)]));
  const moved = rows.map(({ key, exerciseIds }) => ({
    key,
    steps: stepsOf(
      phrase,
      exerciseIds.flatMap((id) => [known.get(id) ?? []]),
    ),
  }));
  const told = moved.filter(({ steps }) => steps.length >= FEWEST_STEPS).length;
  return moved.map(({ key, steps }) => rowOf(key, steps, RISEN_SURE / Math.max(1, told)));
}

/** From one week to a later one: by how much each moved, log tempo. */
interface Step {
  readonly phrase: number;
  readonly exercise: number;
}

/** Steps between weeks that are known of the phrase and of one exercise at least; of several the mean. */
function stepsOf(phrase: readonly WeekTempo[], exercises: readonly (readonly WeekTempo[])[]): readonly Step[] {
  const byPair = new Map<string, { phrase: number; all: number[] }>();
  for (const weeks of exercises) {
    const shared = phrase.flatMap((own) => {
      const other = weeks.find(({ from }) => from === own.from);
      return other ? [{ from: own.from, own: own.bpm, other: other.bpm }] : [];
    });
    for (const [k, later] of shared.slice(1).entries()) {
      const earlier = shared[k]!;
      if (daysBetween(earlier.from, later.from) > MOST_STEP_DAYS) continue;
      const pair = byPair.get(later.from) ?? { phrase: Math.log(later.own / earlier.own), all: [] };
      pair.all.push(Math.log(later.other / earlier.other));
      byPair.set(later.from, pair);
    }
  }
  return [...byPair.values()].map(({ phrase: own, all }) => ({ phrase: own, exercise: mean(all) }));
}

function rowOf(key: string, steps: readonly Step[], sure: number): RisenRow {
  const rose = steps.filter(({ phrase }) => phrase > 0);
  const others = steps.filter(({ phrase }) => phrase <= 0);
  const rising = (of: readonly Step[]) => of.filter(({ exercise }) => exercise > 0).length;
  const [both, alone] = [rising(rose), rising(others)];
  const chance = fisherGreater([both, rose.length - both], [alone, others.length - alone]);
  const share = (of: readonly Step[]) => (of.length === 0 ? null : Math.expm1(mean(of.map(({ exercise }) => exercise))));
  const word = steps.length < FEWEST_STEPS ? 'few' : chance <= sure ? 'together' : 'notSure';
  return { key, steps: steps.length, roseSteps: rose.length, togetherSteps: both, whileRising: share(rose), otherwise: share(others), word };
}

/** Odds of as many or more in the first corner of a table of four counts when its margins are given and chance alone decides. @source [Fisher1935] */
export function fisherGreater([a, b]: readonly [number, number], [c, d]: readonly [number, number]): number {
  const most = Math.min(a + b, a + c);
  const logs = (n: number) => Array.from({ length: n }, (_, k) => Math.log(k + 1)).reduce((sum, log) => sum + log, 0);
  const given = logs(a + b) + logs(c + d) + logs(a + c) + logs(b + d) - logs(a + b + c + d);
  let odds = 0;
  for (let x = a; x <= most; x++) odds += Math.exp(given - logs(x) - logs(a + b - x) - logs(a + c - x) - logs(d - a + x));
  return Math.min(1, odds);
}
