/** Sessions that were cut off (page closed, battery empty): found in the diary, gone on with where today's plan allows it, or closed as they are. */
import { type DiaryView, editOf, isByHand, type KnownRecord, type RecordDraft, type SessionEntry } from '@evenhand/core/diary';
import type { Room } from './room.ts';

/** What is left of a session that was cut off. */
export interface CutOff {
  readonly session: KnownRecord<'session'>;
  /** Practice day it belongs to. */
  readonly day: string;
  /** Seconds of it that the diary holds. */
  readonly playedSec: number;
  /** Place of the first block that the diary does not hold, from 0. */
  readonly nextPosition: number;
  /** Whether all of it that is there was played from the plan. */
  readonly ofPlan: boolean;
  /** When the last of it was written. */
  readonly lastAtMs: number;
}

/** Sessions without an end, the latest first. The one that runs at this moment is among them. */
export const openSessions = (diary: DiaryView): readonly SessionEntry[] =>
  diary.days.flatMap(({ sessions }) => [...sessions].reverse()).filter(({ session }) => session.body.ended === null && !isByHand(session));

/**
 * The session that was cut off last; null when there is none.
 * @param free ids of sessions that nobody plays now.
 */
export function cutOffIn(diary: DiaryView, free: ReadonlySet<string>): CutOff | null {
  const entry = openSessions(diary).find(({ session }) => free.has(session.id));
  if (!entry) return null;
  const { session, playedSec, blocks } = entry;
  return {
    session,
    day: session.day,
    playedSec,
    nextPosition: Math.max(0, ...blocks.map(({ body }) => body.position + 1)),
    ofPlan: ofPlan(entry),
    lastAtMs: Math.max(session.atMs, ...blocks.map(({ atMs }) => atMs)),
  };
}

/** Whether all that is there of a session was played from a plan. */
export const ofPlan = ({ blocks }: Pick<SessionEntry, 'blocks'>): boolean => blocks.every(({ body }) => body.reason?.code.startsWith('plan-'));

/** Days whose session is over: played, and not merely cut off today. A day that is past is over in any case. */
export const daysOver = (diary: DiaryView, today: string): readonly string[] =>
  diary.days
    .filter(({ day, sessions }) => sessions.some(({ playedSec, session }) => playedSec > 0 && (day !== today || session.body.ended !== null)))
    .map(({ day }) => day);

/** What closes a session as it is. It ended when the last of it was written. */
export function closing({ session, lastAtMs }: CutOff, room: Pick<Room, 'writtenNow'>): readonly RecordDraft[] {
  const bodies = [editOf(session, 'ended', 'stopped'), editOf(session, 'endedAtMs', lastAtMs)];
  return bodies.map((body) => ({ kind: 'edit', ...room.writtenNow(), body }));
}
