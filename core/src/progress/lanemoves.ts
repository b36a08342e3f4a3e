/** Where a phrase stood still, or was at another tempo all at once: the dates of its course for the picture of the whole diary. */

import { tempoCourse } from './course.ts';
import type { BlockResult } from './results.ts';
import type { PhraseLane } from './wholediary.ts';

/** A standstill from one day to another, or a jump on a day; beats per minute. */
export type LaneMove =
  | { readonly is: 'stood'; readonly from: string; readonly to: string; readonly bpm: number }
  | { readonly is: 'jump'; readonly from: string; readonly to: string; readonly beforeBpm: number; readonly afterBpm: number };

/** In order of time; what the course says of the phrase on its own page. @param results of the diary, all of them. */
export function laneMoves(results: readonly BlockResult[], { exerciseId, perBeat }: Pick<PhraseLane, 'exerciseId' | 'perBeat'>): readonly LaneMove[] {
  if (exerciseId === null) return [];
  const { said } = tempoCourse(results, { id: exerciseId, perBeat });
  const moves = said.flatMap((one): LaneMove[] => {
    if (one.code === 'course-held' || one.code === 'course-stood')
      return [{ is: 'stood', from: one.params.from, to: one.params.to, bpm: one.params.bpm }];
    if (one.code !== 'course-jump') return [];
    const { day, beforeBpm, afterBpm } = one.params;
    return [{ is: 'jump', from: day, to: day, beforeBpm, afterBpm }];
  });
  return moves.sort((a, b) => (a.from < b.from ? -1 : 1));
}
