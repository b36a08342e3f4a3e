/** What has been in the sessions so far: the memory that the choice of the next session works from. */
import type { PlannedSession } from './plan.ts';

/** Of one exercise. */
export interface SeenExercise {
  /** Sessions it has been in. */
  readonly sessions: number;
  /** Number of the session in which its present stretch began; a stretch ends with a week of sessions without it. */
  readonly began: number;
  /** Number of the session it was last in, from 0. */
  readonly last: number;
  /** Stretches so far, the present one included. */
  readonly stretches: number;
}

export interface Seen {
  /** Sessions there have been. */
  readonly count: number;
  readonly exercises: ReadonlyMap<string, SeenExercise>;
}

export const NOTHING_SEEN: Seen = { count: 0, exercises: new Map() };

/**
 * The memory after one more session.
 * @param phraseId which is in every session and never counts as new.
 * @param perWeek sessions a week.
 */
export function noteSession(
  seen: Seen,
  session: PlannedSession,
  { phraseId, perWeek }: { readonly phraseId: string; readonly perWeek: number },
): Seen {
  const exercises = new Map(seen.exercises);
  const ids = new Set(session.blocks.map(({ exerciseId }) => exerciseId).filter((id) => id !== phraseId));
  for (const id of ids) {
    const before = exercises.get(id);
    const goesOn = before !== undefined && seen.count - before.last <= perWeek;
    exercises.set(id, {
      sessions: (before?.sessions ?? 0) + 1,
      began: goesOn ? before.began : seen.count,
      last: seen.count,
      stretches: (before?.stretches ?? 0) + (goesOn ? 0 : 1),
    });
  }
  return { count: seen.count + 1, exercises };
}

/** Exercises of the last sessions, as many of them as fill a week together with the one to come. */
export const weekSoFar = (seen: Seen, perWeek: number): ReadonlySet<string> =>
  new Set([...seen.exercises].filter(([, { last }]) => last > seen.count - perWeek).map(([id]) => id));
