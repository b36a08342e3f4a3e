/** How likely the results of each day are for every clean tempo it may have had: what models of a course are weighed by. */
import { cleanOdds, curveThrough, WORD_WEIGHT } from '../tempo/index.ts';
import { COURSE_GRID } from './parameters.ts';
import type { ExerciseResult } from './tempocurve.ts';

/** How gradually runs fail with tempo, and how much the form of a day strays; both in log tempo. */
export interface Form {
  readonly slope: number;
  readonly nightSd: number;
}

/** The clean tempi that are looked at: `count` of them, each `COURSE_GRID.step` above the one before, from `first`; log tempo. */
export interface TempoColumns {
  readonly first: number;
  readonly count: number;
}

/** Columns from below the slowest to above the fastest tempo that was played. */
export function columnsFor(results: readonly ExerciseResult[]): TempoColumns {
  const logs = results.map(({ tempoBpm }) => Math.log(tempoBpm));
  const first = Math.min(...logs) - COURSE_GRID.reach;
  return { first, count: Math.ceil((Math.max(...logs) + COURSE_GRID.reach - first) / COURSE_GRID.step) + 1 };
}

/**
 * Natural logarithm of how likely the results of each day are, by column, without the binomial constants: clean runs are counted at each tempo,
 * and the form of the day, normal about the course, is summed out. A run by the player's word counts as in the clean tempo.
 * @param results of one exercise, in any order.
 * @returns a row for each of `days`, in their order.
 */
export function dayLogs(results: readonly ExerciseResult[], days: readonly string[], { form, columns }: { form: Form; columns: TempoColumns }) {
  return days.map((day) =>
    strayed(
      rowOf(
        results.filter((result) => result.day === day),
        form.slope,
        columns,
      ),
      form.nightSd,
    ),
  );
}

function rowOf(results: readonly ExerciseResult[], slope: number, { first, count }: TempoColumns): Float64Array {
  const row = new Float64Array(count);
  for (const { tempoBpm, clean, runs, byEar } of results) {
    const worth = byEar === false ? WORD_WEIGHT : 1;
    const x = Math.log(tempoBpm);
    for (let k = 0; k < count; k++) {
      const odds = cleanOdds(x, curveThrough(first + k * COURSE_GRID.step, slope));
      row[k]! += worth * (clean * Math.log(odds) + (runs - clean) * Math.log(1 - odds));
    }
  }
  return row;
}

/** Deviations of a day's form that are looked at. */
const REACH_SDS = 4;

/** Summed over normal forms of the day; beyond the columns the last one goes on. */
function strayed(row: Float64Array, sd: number): Float64Array {
  const reach = Math.ceil((REACH_SDS * sd) / COURSE_GRID.step);
  const kernel = Array.from({ length: 2 * reach + 1 }, (_, k) => Math.exp(-((((k - reach) * COURSE_GRID.step) / sd) ** 2) / 2));
  const whole = kernel.reduce((sum, weight) => sum + weight, 0);
  const most = topOf(row);
  const odds = row.map((log) => Math.exp(log - most));
  return row.map((_, k) => {
    let sum = 0;
    for (let j = -reach; j <= reach; j++) sum += kernel[j + reach]! * odds[Math.max(0, Math.min(row.length - 1, k + j))]!;
    return most + Math.log(Math.max(sum / whole, Number.MIN_VALUE));
  });
}

/** The greatest of some log likelihoods; −∞ of none. */
export function topOf(logs: ArrayLike<number>): number {
  let top = Number.NEGATIVE_INFINITY;
  for (let k = 0; k < logs.length; k++) top = Math.max(top, logs[k]!);
  return top;
}
