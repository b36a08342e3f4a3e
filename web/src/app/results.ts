/** What the diary says came of blocks: where each exercise stands, days of practice. */
import { type DiaryView, daysBetween } from '@evenhand/core/diary';
import { type KnownTempo, TOO_HARD_REST_DAYS } from '@evenhand/core/plan';
import { type BlockResult, isAsideCode, isReferenceCode, practisedOf, resultsOf } from '@evenhand/core/progress';
import type { SessionBlock } from '@evenhand/core/session';
import { standsAt } from '@evenhand/core/tempo';
import { minutesOfSec } from '@evenhand/core/units';
import type { KnownTempi } from './ring.ts';

/** Whether what comes of a running block says where work on its exercise stands: the same as `reference` says of a block that was kept. */
export const countsForWork = ({ reason }: Pick<SessionBlock, 'reason'>): boolean => !isReferenceCode(reason.code) && !isAsideCode(reason.code);

/** Whether a block says where work goes on next time: one whose tempo may move, or that was slower for a day alone. */
export const promisesTempo = ({ fixedTempo, aim }: Pick<SessionBlock, 'fixedTempo' | 'aim'>): boolean => !fixedTempo || aim.code === 'plan-aim-easy';

/** Results that say where work stands: nothing at a tempo of its own, nothing of an exercise before its tempo was found anew. */
export function workResults(results: readonly BlockResult[]): readonly BlockResult[] {
  const lastFound = new Map(results.flatMap(({ found, exerciseId }, k) => (found ? [[exerciseId, k] as const] : [])));
  return results.filter(({ reference, exerciseId, found }, k) => !reference && !found && k > (lastFound.get(exerciseId) ?? -1));
}

/** Where work on each exercise stands by all its results. */
export function knownOf(results: readonly BlockResult[]): readonly KnownTempo[] {
  const counted = results.filter(({ reference }) => !reference);
  const work = workResults(results);
  const lastDay = results.at(-1)?.day ?? '';
  return [...new Set(counted.map(({ exerciseId }) => exerciseId))].map((exerciseId) => {
    const ofThis = ({ exerciseId: id }: BlockResult) => id === exerciseId;
    const own = work.filter(ofThis);
    const days = new Set(counted.filter(ofThis).map(({ day }) => day)).size;
    // Found, and not played since.
    if (own.length === 0) return { exerciseId, tempoBpm: counted.filter(ofThis).at(-1)!.tempoBpm, days };
    const { nextTempoBpm, reason } = standsAt(own);
    const rests = reason.code === 'tempo-too-hard' && daysBetween(own.at(-1)!.day, lastDay) < TOO_HARD_REST_DAYS;
    return { exerciseId, tempoBpm: nextTempoBpm, days, stuckDays: stuckDaysOf(own), ...(rests ? { tooHard: true } : {}) };
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

export { practisedOf };

/** Minutes played, by day. */
export const minutesByDay = (diary: Pick<DiaryView, 'days'>): ReadonlyMap<string, number> =>
  new Map(diary.days.filter(({ playedSec }) => playedSec > 0).map(({ day, playedSec }) => [day, minutesOfSec(playedSec)]));

/** Days on which something was played. */
export const practisedDays = (diary: Pick<DiaryView, 'days'>): readonly string[] => [...new Set(practisedOf(diary).map(({ day }) => day))];

/** Days of practice since a session was stopped because something hurt, that day not counted; undefined when none was, or today's was. */
export function practisedSinceHurt(diary: Pick<DiaryView, 'days'>, today: string): number | undefined {
  const before = diary.days.filter(({ day }) => day < today);
  const hurt = before.find(({ sessions }) => sessions.some(({ session }) => session.body.ended === 'hurt'))?.day;
  return hurt === undefined ? undefined : before.filter(({ day, playedSec }) => day > hurt && playedSec > 0).length;
}

/** Whether the player stopped on a day because something hurt. */
export const hurtOn = (diary: DiaryView, day: string): boolean =>
  diary.days.some((entry) => entry.day === day && entry.sessions.some(({ session }) => session.body.ended === 'hurt'));

/** Where each exercise stands by its results. */
export const nextTempi = (diary: DiaryView): KnownTempi =>
  Object.fromEntries(knownOf(resultsOf(diary)).map(({ exerciseId, tempoBpm }) => [exerciseId, tempoBpm]));
