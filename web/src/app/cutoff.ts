/** Sessions that were cut off (page closed, battery empty): found in the diary, gone on with where today's plan allows it, or closed as they are. */
import { type DiaryView, editOf, isByHand, type KnownRecord, type RecordDraft, type SessionEntry } from '@evenhand/core/diary';
import { minutesOfSec } from '@evenhand/core/units';
import type { BlockSoFar } from '../store/store.ts';
import { editsTo } from './blockpage.ts';
import type { Room } from './room.ts';
import type { TodayBlock } from './today.ts';

/** What is left of a session that was cut off. */
export interface CutOff {
  readonly session: KnownRecord<'session'>;
  /** Practice day it belongs to. */
  readonly day: string;
  /** Seconds of it that the diary holds. */
  readonly playedSec: number;
  /** Place of the first block that the diary does not hold to its end, from 0. */
  readonly nextPosition: number;
  /** That block as far as it was played before the cut; null when nothing of it is there. */
  readonly begun: KnownRecord<'block'> | null;
  /** Seconds played at that place, that block's among them: a change of tempo cuts a block in two. */
  readonly playedThereSec: number;
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
  const last = blocks.at(-1);
  const begun = last?.body.unfinished ? last : null;
  return {
    session,
    day: session.day,
    playedSec,
    nextPosition: last ? last.body.position + (begun ? 0 : 1) : 0,
    begun,
    playedThereSec: blocks.filter(({ body }) => body.position === last?.body.position).reduce((sum, { body }) => sum + body.durationSec, 0),
    ofPlan: ofPlan(entry),
    lastAtMs: Math.max(session.atMs, ...blocks.map(({ atMs }) => atMs)),
  };
}

/** Whether all that is there of a session was played from a plan. */
export const ofPlan = ({ blocks }: Pick<SessionEntry, 'blocks'>): boolean => blocks.every(({ body }) => body.reason?.code.startsWith('plan-'));

/** A rest of a block that is shorter is not played any more, in minutes. Assumption: a quarter minute, as plans count. */
const SHORTEST_REST_MIN = 0.25;

/** Where a session that was cut off goes on, and with what: the rest of the block that was begun, at its tempo, then those after it. */
export function goingOn(cut: CutOff, blocks: readonly TodayBlock[]): { readonly cutOff: CutOff; readonly left: readonly TodayBlock[] } {
  const [first, ...later] = blocks.slice(cut.nextPosition);
  const body = cut.begun?.body;
  if (!first || !body || first.exercise.id !== body.exercise.id) return { cutOff: { ...cut, begun: null }, left: blocks.slice(cut.nextPosition) };
  const minutes = first.planned.minutes - minutesOfSec(cut.playedThereSec);
  if (minutes < SHORTEST_REST_MIN && later.length > 0) return { cutOff: { ...cut, begun: null, nextPosition: cut.nextPosition + 1 }, left: later };
  const planned = { ...first.planned, tempoBpm: body.stretches?.at(-1)?.tempoBpm ?? body.tempoBpm, minutes: Math.max(SHORTEST_REST_MIN, minutes) };
  return { cutOff: cut, left: [{ ...first, planned }, ...later] };
}

/**
 * What brings the block that ran when a session was cut off into the diary; nothing when it is there.
 * @param kept the block that was kept last, aside of the diary.
 */
export function recovered(diary: DiaryView, sessionId: string, kept: BlockSoFar | null): readonly RecordDraft[] {
  const entry = openSessions(diary).find(({ session }) => session.id === sessionId);
  if (!entry || kept?.body.sessionId !== sessionId) return [];
  const known = entry.blocks.find(({ id }) => id === kept.id);
  if (!known) return [kept];
  const { id: _, ...moment } = kept;
  return known.body.unfinished ? editsTo(known, kept.body).map((body) => ({ ...moment, kind: 'edit', body })) : [];
}

/** Days whose session is over: played, and not merely cut off today. A day that is past is over in any case. */
export const daysOver = (diary: Pick<DiaryView, 'days'>, today: string): readonly string[] =>
  diary.days
    .filter(({ day, sessions }) => sessions.some(({ playedSec, session }) => playedSec > 0 && (day !== today || session.body.ended !== null)))
    .map(({ day }) => day);

/** What closes a session as it is. It ended when the last of it was written. */
export function closing({ session, lastAtMs }: CutOff, room: Pick<Room, 'writtenNow'>): readonly RecordDraft[] {
  const bodies = [editOf(session, 'ended', 'stopped'), editOf(session, 'endedAtMs', lastAtMs)];
  return bodies.map((body) => ({ kind: 'edit', ...room.writtenNow(), body }));
}
