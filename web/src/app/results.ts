/** What the diary says came of blocks: results, where each exercise stands, days of practice. */
import type { DiaryView, KnownRecord } from '@evenhand/core/diary';
import type { Exercise } from '@evenhand/core/exercise';
import type { KnownTempo } from '@evenhand/core/plan';
import type { ExerciseResult, PractisedSession } from '@evenhand/core/progress';
import type { SessionBlock } from '@evenhand/core/session';
import { standsAt } from '@evenhand/core/tempo';
import type { KnownTempi } from './ring.ts';
import { exerciseOfSaved } from './savedplan.ts';

/** What came of one block. */
export interface BlockResult extends ExerciseResult {
  readonly byEar: boolean;
  /** At a tempo of its own, as the phrase to compare with: it says nothing of where work stands. */
  readonly reference: boolean;
  readonly exercise: Exercise;
  /** The tempo was searched for and found: work stands there, whatever was before. It counts no runs. */
  readonly found?: true;
}

type Block = KnownRecord<'block'>;

/** All blocks of the diary, in order of time. */
export const blocksOf = (diary: DiaryView): readonly Block[] =>
  [...diary.days].reverse().flatMap((day) => day.sessions.flatMap((session) => session.blocks));

/** Whether a block was the phrase at a fixed tempo. */
export const isReference = ({ body }: Block): boolean => REFERENCE.includes(body.reason?.code ?? '');

/** Whether a block was at a tempo of its own (bursts at the tempo wanted, the player's own music), which says nothing of where work stands. */
const isAside = ({ body }: Block): boolean => ASIDE.includes(body.reason?.code ?? '');

const REFERENCE: readonly string[] = ['plan-reason-reference', 'plan-reason-check'];
const ASIDE: readonly string[] = ['plan-reason-stuck', 'plan-reason-bursts', 'plan-reason-repertoire'];

/** Whether what comes of a running block says where work on its exercise stands: the same as `reference` says of a block that was kept. */
export const countsForWork = ({ reason }: Pick<SessionBlock, 'reason'>): boolean => ![...REFERENCE, ...ASIDE].includes(reason.code);

/** Whether a block says where work goes on next time: one whose tempo may move, or that was slower for a day alone. */
export const promisesTempo = ({ fixedTempo, aim }: Pick<SessionBlock, 'fixedTempo' | 'aim'>): boolean => !fixedTempo || aim.code === 'plan-aim-easy';

/** Results in order of time: by ear where something was heard, else by the player's word; blocks with neither give none. */
export const resultsOf = (diary: DiaryView): readonly BlockResult[] =>
  blocksOf(diary).flatMap((block) => (block.body.search ? searchResults(block, block.body.search) : (resultOf(block) ?? [])));

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

/** Each tempo that was tried tells something of the clean tempo, and nothing of where work stands; what was found does. */
function searchResults({ day, body }: Block, steps: NonNullable<Block['body']['search']>): readonly BlockResult[] {
  const exercise = exerciseOfSaved(body.exercise);
  const of = { exerciseId: exercise.id, exercise, day };
  const tried = steps.map((step) => ({ ...of, ...step, reference: true }));
  return [...tried, { ...of, tempoBpm: body.tempoBpm, clean: 0, runs: 0, byEar: true, reference: false, found: true }];
}

/** Results that say where work stands: nothing at a tempo of its own, nothing of an exercise before its tempo was found anew. */
export function workResults(results: readonly BlockResult[]): readonly BlockResult[] {
  const lastFound = new Map(results.flatMap(({ found, exerciseId }, k) => (found ? [[exerciseId, k] as const] : [])));
  return results.filter(({ reference, exerciseId, found }, k) => !reference && !found && k > (lastFound.get(exerciseId) ?? -1));
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
  const counted = results.filter(({ reference }) => !reference);
  const work = workResults(results);
  return [...new Set(counted.map(({ exerciseId }) => exerciseId))].map((exerciseId) => {
    const ofThis = ({ exerciseId: id }: BlockResult) => id === exerciseId;
    const own = work.filter(ofThis);
    const days = new Set(counted.filter(ofThis).map(({ day }) => day)).size;
    // Found, and not played since.
    if (own.length === 0) return { exerciseId, tempoBpm: counted.filter(ofThis).at(-1)!.tempoBpm, days };
    return { exerciseId, tempoBpm: standsAt(own).nextTempoBpm, days, stuckDays: stuckDaysOf(own) };
  });
}

/** Days at the fastest tempo so far since it was first played, that day not counted: a slow day, or one under a cap, is not being stuck. */
function stuckDaysOf(own: readonly BlockResult[]): number {
  const fastest = Math.max(...own.map(({ tempoBpm }) => tempoBpm));
  const since = own.find(({ tempoBpm }) => tempoBpm === fastest)!.day;
  return new Set(own.filter(({ day, tempoBpm }) => day > since && tempoBpm >= fastest * NEARLY).map(({ day }) => day)).size;
}

/** A step down at a time is still work at the fastest tempo. @source core/src/tempo/parameters.ts: the smallest step is 3 % */
const NEARLY = 0.95;

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
