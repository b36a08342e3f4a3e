/** The cell of the phrase at hand in the blocks of the diary, for the figures of its weeks. */
import type { DiaryView } from '@evenhand/core/diary';
import { blocksOf, type CellRow, cellRow } from '@evenhand/core/progress';
import { pointOf, type StandingPlan } from './savedplan.ts';

/** Blocks that are looked at. Assumption: a year of work on one phrase. */
const BLOCKS = 400;

/** A row for each block of the phrase that was heard, the latest; none without a phrase or a cell. */
export function cellRowsOf(diary: DiaryView, standing: StandingPlan | null, phraseId: string | null): readonly CellRow[] {
  const cell = standing && pointOf(diary, standing)?.body.cell;
  if (!cell || phraseId === null) return [];
  const own = blocksOf(diary)
    .filter(({ body }) => body.exercise.id === phraseId)
    .slice(-BLOCKS);
  return own.flatMap(({ day, body }) => (body.heard ? [cellRow({ day, heard: body.heard, surfaces: body.exercise.surfaces }, cell)] : []));
}
