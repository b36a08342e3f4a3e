/** What was worked on: each phrase with its days and minutes, and how it stands. */
import { type DiaryView, phraseOfSession, type StickingPointBody } from '../diary/index.ts';
import type { Exercise } from '../exercise/index.ts';
import { minutesOfSec } from '../units.ts';
import type { BlockResult } from './results.ts';

/** A phrase as one line of a list. */
export interface WorkedOn {
  readonly stickingPointId: string;
  readonly name: string;
  readonly sticking: string;
  readonly perBeat: number;
  readonly wantedBpm: number;
  readonly state: { readonly is: 'open' | 'paused' | 'closed'; readonly day: string } | null;
  /** The exercise that is the phrase itself; null without results of it. */
  readonly exerciseId: string | null;
  /** First and last practice day, and how many there were. */
  readonly from: string;
  readonly to: string;
  readonly days: number;
  readonly minutes: number;
}

/** Every phrase with a session, the one worked on last first. */
export function workedOn(diary: Pick<DiaryView, 'days' | 'stickingPoints'>, results: readonly BlockResult[]): readonly WorkedOn[] {
  const sessions = diary.days.flatMap(({ day, sessions }) =>
    sessions.map(({ session, playedSec }) => ({ day, playedSec, of: phraseOfSession(session, diary.stickingPoints) })),
  );
  const told = diary.stickingPoints.flatMap(({ id, body }): WorkedOn[] => {
    const own = sessions.filter(({ of, playedSec }) => of === id && playedSec > 0);
    const days = [...new Set(own.map(({ day }) => day))].sort();
    if (days.length === 0) return [];
    const { name, sticking, perBeat, tempoBpm, state = null } = body;
    const phrase = results.find(({ exercise }) => isPhraseItself(exercise, body));
    const minutes = minutesOfSec(own.reduce((sum, { playedSec }) => sum + playedSec, 0));
    const span = { from: days[0]!, to: days.at(-1)!, days: days.length, minutes };
    return [
      {
        ...{ stickingPointId: id, name, sticking, perBeat, wantedBpm: tempoBpm, state, exerciseId: phrase?.exerciseId ?? null },
        ...span,
      },
    ];
  });
  return told.sort((a, b) => (a.to < b.to ? 1 : -1));
}

/**
 * Whether an exercise is the phrase itself, as it stands. Its letters alone do not say so: an exercise may take them around the drums.
 * One that was written by hand or came from a table is it on the same drums.
 */
export const isPhraseItself = (
  { title, sticking, perBeat, surfaces }: Pick<Exercise, 'title' | 'sticking' | 'perBeat' | 'surfaces'>,
  phrase: Pick<StickingPointBody, 'sticking' | 'perBeat' | 'surfaces'>,
): boolean =>
  sticking === phrase.sticking && perBeat === phrase.perBeat && (title.code === 'title-whole' || surfaces.join() === phrase.surfaces.join());
