/** A recording of the player's own that is played over: its tempo and beats as data, and what can be wrong with it. */
import type { Problem } from '../problem.ts';

/** Where the beats of a recording are. */
export interface SongBeats {
  /** Beats a minute over the whole of it. */
  readonly tempoBpm: number;
  /** Every beat, s from the start of the recording, ascending, at least two. */
  readonly beatsSec: readonly number[];
  /** Index, below the beats of a bar, of the first beat that counts as 1. */
  readonly firstOne: number;
}

/** What was found by listening. */
export interface FoundBeats extends SongBeats {
  /** How clearly the beat repeats itself, 0 to 1. */
  readonly strength: number;
  /** Whether one tempo holds from start to end; where it does not, the beats follow the recording. */
  readonly steady: boolean;
}

/** Some bars of a recording, over and over. */
export interface SongLoop {
  readonly startSec: number;
  readonly endSec: number;
  readonly bars: number;
  /** Beats a minute inside the loop: what an exercise is played at over it. */
  readonly tempoBpm: number;
}

/** What can be wrong. Bars are counted from 1. */
export type SongProblem =
  | Problem<'song-short', { readonly durationSec: number; readonly leastSec: number }>
  | Problem<'song-no-beat', Record<string, never>>
  | Problem<'song-tempo-moves', { readonly lowBpm: number; readonly highBpm: number }>
  | Problem<'song-few-taps', { readonly tapCount: number; readonly least: number }>
  | Problem<'song-loop-outside', { readonly firstBar: number; readonly lastBar: number; readonly barCount: number }>;
