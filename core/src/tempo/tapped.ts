/** A tempo from taps: by hand on a screen, a key, or two sticks struck together. */
import { median } from '../quantiles.ts';
import { bpmOfBeats } from '../units.ts';
import { TAPPED } from './parameters.ts';

/** What taps say so far. */
export interface TappedTempo {
  readonly tempoBpm: number;
  /** Taps it rests on, the first among them. */
  readonly tapCount: number;
}

/**
 * The tempo of the latest taps: a pause begins anew, the median of the intervals says what is usual, intervals far from it are left out (a slip of
 * the hand), those that hold two or three of it were taps that were not heard and count as so many, and the mean of the rest is told.
 * @param tapsSec moments of the taps, ascending, by any clock.
 * @returns null of fewer than three taps since the last pause, or where no tempo between 20 and 400 comes out.
 * @source [Repp2005] trained tappers scatter by 2 to 4 % of the interval (FACTS.md 2, from memory): at 2 %, four taps are good to 1.9 % in 9 of 10, eight to 1.2 %
 */
export function tappedTempo(tapsSec: readonly number[]): TappedTempo | null {
  const latest = sincePause(tapsSec);
  if (latest.length < TAPPED.fewest) return null;
  const gaps = gapsOf(singly(latest, median(gapsOf(latest))));
  const usualSec = median(gaps);
  const counted = gaps.map((sec) => ({ sec, beats: Math.max(1, Math.round(sec / usualSec)) }));
  const near = counted.filter(({ sec, beats }) => Math.abs(sec / beats - usualSec) <= TAPPED.slipShare * usualSec);
  const beats = near.reduce((sum, one) => sum + one.beats, 0);
  const tempoBpm = bpmOfBeats(
    beats,
    near.reduce((sum, one) => sum + one.sec, 0),
  );
  return beats > 0 && tempoBpm >= TAPPED.slowestBpm && tempoBpm <= TAPPED.fastestBpm ? { tempoBpm, tapCount: near.length + 1 } : null;
}

const gapsOf = (taps: readonly number[]): readonly number[] => taps.slice(1).map((sec, i) => sec - taps[i]!);

/** Taps without those that come within half an interval of the one before: a bounce, or one tap heard twice. */
function singly(taps: readonly number[], usualSec: number): readonly number[] {
  const kept: number[] = [];
  for (const sec of taps) if (kept.length === 0 || sec - kept.at(-1)! >= usualSec / 2) kept.push(sec);
  return kept;
}

/** The taps after the last pause, no more than the latest dozen: a hand that found its tempo late is not held to how it began. */
function sincePause(tapsSec: readonly number[]): readonly number[] {
  const latest = tapsSec.slice(-TAPPED.most);
  const pauses = latest.flatMap((sec, i) => (i > 0 && sec - latest[i - 1]! > TAPPED.pauseSec ? [i] : []));
  return latest.slice(pauses.at(-1) ?? 0);
}
