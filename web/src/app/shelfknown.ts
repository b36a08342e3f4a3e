/** What earlier results tell the shelf: what this player reaches so far, and what was done lately. */
import { daysBetween } from '@evenhand/core/day';
import { type Exercise, expectedCycle, type ShelfOptions } from '@evenhand/core/exercise';
import { burstsOf, type PlayedBurst, reachSoFar, usualReach } from '@evenhand/core/kit';
import type { BlockResult } from '@evenhand/core/progress';
import { toNumber } from '@evenhand/core/rational';
import { TARGET_SHARE } from '@evenhand/core/tempo';
import { secOfBeats } from '@evenhand/core/units';
import type { Side } from './settings.ts';

/** A new exercise starts at this share of the phrase's tempo. Assumption: each new setting is expected to start lower (JOB.md). */
export const START_SHARE = 0.85;

/** What a shelf is asked with beside the phrase. */
export interface ShelfAsked {
  /** Beats a minute at which its exercises start. */
  readonly tempoBpm: number;
  readonly today: string;
  /** The leading hand. */
  readonly hand: Side;
}

/** Reach and history for the shelf, from results of work; without any, the usual reach and no history. */
export function whatIsKnown(results: readonly BlockResult[], { tempoBpm, today, hand }: ShelfAsked): Pick<ShelfOptions, 'at' | 'history'> {
  const reach = reachSoFar(burstsPlayed(results), usualReach(hand));
  const done = results
    .filter(({ reference }) => !reference)
    .map(({ exerciseId, day }) => ({ id: exerciseId, daysAgo: Math.max(0, daysBetween(day, today)) }));
  return { at: { tempoBpm, reach }, history: { done } };
}

/** What was heard of this player, as bursts. */
export const burstsPlayed = (results: readonly BlockResult[]): readonly PlayedBurst[] =>
  results
    .filter(({ byEar, runs }) => byEar && runs > 0)
    .flatMap((result) => burstsIn(result.exercise, result.tempoBpm, result.clean >= TARGET_SHARE * result.runs));

function burstsIn(exercise: Exercise, tempoBpm: number, clean: boolean): readonly PlayedBurst[] {
  const { strokes, lengthBeats } = expectedCycle(exercise);
  const sec = (beats: number) => secOfBeats(beats, tempoBpm);
  const played = strokes.map(({ limb, surface, beat }) => ({ limb, drum: surface, timeSec: sec(toNumber(beat)) }));
  return burstsOf(played, sec(toNumber(lengthBeats)), clean);
}
