/** What the diary says came of blocks: results, where each exercise stands, days of practice. */
import type { DiaryView, KnownRecord } from '@evenhand/core/diary';
import type { Exercise } from '@evenhand/core/exercise';
import type { KnownTempo } from '@evenhand/core/plan';
import type { ExerciseResult, PractisedSession } from '@evenhand/core/progress';
import { standsAt } from '@evenhand/core/tempo';
import type { KnownTempi } from './ring.ts';
import { exerciseOfSaved } from './savedplan.ts';

/** What came of one block. */
export interface BlockResult extends ExerciseResult {
  readonly byEar: boolean;
  /** At a tempo of its own, as the phrase to compare with: it says nothing of where work stands. */
  readonly reference: boolean;
  readonly exercise: Exercise;
}

type Block = KnownRecord<'block'>;

/** All blocks of the diary, in order of time. */
export const blocksOf = (diary: DiaryView): readonly Block[] =>
  [...diary.days].reverse().flatMap((day) => day.sessions.flatMap((session) => session.blocks));

/** Whether a block was the phrase at a fixed tempo. */
export const isReference = ({ body }: Block): boolean => ['plan-reason-reference', 'plan-reason-check'].includes(body.reason?.code ?? '');

/** Whether a block was at a tempo of its own (bursts at the tempo wanted, the player's own music), which says nothing of where work stands. */
const isAside = ({ body }: Block): boolean => ['plan-reason-stuck', 'plan-reason-bursts', 'plan-reason-repertoire'].includes(body.reason?.code ?? '');

/** Results in order of time: by ear where something was heard, else by the player's word; blocks with neither give none. */
export const resultsOf = (diary: DiaryView): readonly BlockResult[] => blocksOf(diary).flatMap((block) => resultOf(block) ?? []);

function resultOf(block: Block): BlockResult | null {
  const { exercise, tempoBpm, heard } = block.body;
  const counted = heard && heard.runCount > 0 ? { clean: heard.cleanRunCount, runs: heard.runCount } : wordOf(block);
  if (!counted) return null;
  const byEar = heard !== null && heard.runCount > 0;
  return {
    exerciseId: exercise.id,
    day: block.day,
    tempoBpm,
    ...counted,
    byEar,
    reference: isReference(block) || isAside(block),
    exercise: exerciseOfSaved(exercise),
  };
}

/** A round is one run by the player's word; a block of which only one word is known is one too. */
function wordOf({ body }: Block): { readonly clean: number; readonly runs: number } | null {
  const { playerRounds, playerSays } = body;
  if (playerRounds) {
    const runs = playerRounds.hadIt + playerRounds.again;
    return runs > 0 ? { clean: playerRounds.hadIt, runs } : null;
  }
  return playerSays ? { clean: playerSays === 'hadIt' ? 1 : 0, runs: 1 } : null;
}

/** Where work on each exercise stands by all its results. */
export function knownOf(results: readonly BlockResult[]): readonly KnownTempo[] {
  const work = results.filter(({ reference }) => !reference);
  return [...new Set(work.map(({ exerciseId }) => exerciseId))].map((exerciseId) => {
    const own = work.filter((result) => result.exerciseId === exerciseId);
    return { exerciseId, tempoBpm: standsAt(own).nextTempoBpm, days: new Set(own.map(({ day }) => day)).size, stuckDays: stuckDaysOf(own) };
  });
}

/** Days with results since a faster tempo than ever before was played, that day not counted. */
function stuckDaysOf(own: readonly BlockResult[]): number {
  const fastest = Math.max(...own.map(({ tempoBpm }) => tempoBpm));
  const since = own.find(({ tempoBpm }) => tempoBpm === fastest)!.day;
  return new Set(own.filter(({ day }) => day > since).map(({ day }) => day)).size;
}

/** Sessions in which something was played. */
export const practisedOf = (diary: Pick<DiaryView, 'days'>): readonly PractisedSession[] =>
  diary.days.flatMap(({ day, sessions }) =>
    sessions.filter(({ playedSec }) => playedSec > 0).map(({ playedSec }) => ({ day, minutes: playedSec / 60 })),
  );

/** Minutes played, by day. */
export const minutesByDay = (diary: DiaryView): ReadonlyMap<string, number> =>
  new Map(diary.days.filter(({ playedSec }) => playedSec > 0).map(({ day, playedSec }) => [day, playedSec / 60]));

/** Days on which something was played. */
export const practisedDays = (diary: Pick<DiaryView, 'days'>): readonly string[] => [...new Set(practisedOf(diary).map(({ day }) => day))];

/** Whether the player stopped on a day because something hurt. */
export const hurtOn = (diary: DiaryView, day: string): boolean =>
  diary.days.some((entry) => entry.day === day && entry.sessions.some(({ session }) => session.body.ended === 'hurt'));

/** Where each exercise stands by its results. */
export const nextTempi = (diary: DiaryView): KnownTempi =>
  Object.fromEntries(knownOf(resultsOf(diary)).map(({ exerciseId, tempoBpm }) => [exerciseId, tempoBpm]));
