/** The strokes that fail, week by week: how evenly and how loud the second of them comes against the first, with the range over the blocks of a week. */
import { addDays, startOfWeek } from '../day.ts';
import type { SavedHeard } from '../diary/index.ts';
import { mean, type Pair, type Place, standardDeviation } from '../measurement/index.ts';
import { FEWEST_BLOCKS, STUDENT_95 } from './parameters.ts';
import type { Figure } from './thenandnow.ts';

/** What one block says of the cell. */
export interface CellRow {
  readonly day: string;
  /** Space between the two strokes of a double over the space written; 1 is even. Of a cell without a double null. */
  readonly space: number | null;
  /** Volume of the last stroke of the cell against its first, dB; below 0 softer. */
  readonly stepDb: number | null;
}

/** A week of the calendar, from Monday; figures null with fewer than three blocks. */
export interface CellWeek {
  readonly from: string;
  readonly blocks: number;
  readonly space: Figure | null;
  readonly stepDb: Figure | null;
}

/** Of a block what lies in the cell: its double, else its first and last stroke where both are on one drum. @param cell main strokes from 0. */
export function cellRow(
  { day, heard, surfaces }: { readonly day: string; readonly heard: Pick<SavedHeard, 'places' | 'pairs'>; readonly surfaces: readonly string[] },
  { first, last }: { readonly first: number; readonly last: number },
): CellRow {
  const pair = (heard.pairs as readonly Pair[]).find((one) => one.first >= first && one.second <= last && one.second > one.first);
  if (pair) return { day, space: pair.unsure ? null : pair.gapShare, stepDb: pair.levelStepDb };
  const places = heard.places as readonly Place[];
  const levelOf = (index: number) => places.find((place) => place.index === index)?.levelDb ?? null;
  const [was, is] = [levelOf(first), levelOf(last)];
  return { day, space: null, stepDb: was === null || is === null || surfaces[first] !== surfaces[last] ? null : is - was };
}

/** Weeks with blocks, ascending. */
export function cellWeeks(rows: readonly CellRow[]): readonly CellWeek[] {
  const weeks = [...new Set(rows.map(({ day }) => startOfWeek(day)))].sort();
  return weeks.map((from) => {
    const inside = rows.filter(({ day }) => day >= from && day <= addDays(from, 6));
    const told = (of: (row: CellRow) => number | null) => meanRange(inside.flatMap((row) => of(row) ?? []));
    return { from, blocks: inside.length, space: told(({ space }) => space), stepDb: told(({ stepDb }) => stepDb) };
  });
}

/** The mean of some blocks with the 95 % range that their scatter gives; null with fewer than three. @source [Student1908] */
export function meanRange(values: readonly number[]): Figure | null {
  if (values.length < FEWEST_BLOCKS) return null;
  const value = mean(values);
  const times = STUDENT_95[Math.min(values.length - 1, STUDENT_95.length) - 1]!;
  const half = (times * standardDeviation(values)) / Math.sqrt(values.length);
  return { value, low: value - half, high: value + half };
}
