/** Where a block lies on the audio clock, and how it is clicked, as plain data. */
import type { ClickSound } from '../sound/index.ts';

/** From a bar of the block on, another tempo. */
export interface TempoChange {
  readonly bar: number;
  readonly tempoBpm: number;
}

/** Where in a bar it clicks. */
export type ClickPlace = 'beats' | 'offBeats' | 'twoAndFour' | 'one' | 'everySecondBar' | 'none';

/** All of it may be left out: a click on every beat, the first accented. */
export interface ClickWay {
  readonly place?: ClickPlace;
  /** Clicks in a beat, where every beat is clicked; 1 to 8. */
  readonly perBeat?: number;
  /** Share of a pair of parts that its first takes: 0.5 straight, 2/3 a triplet's long and short. Moves off-beats too. */
  readonly swing?: number;
  /** Beats that are accented, from 0; default the first. */
  readonly accents?: readonly number[];
  /** So many bars sound, then so many are silent, over and over from the first bar on. */
  readonly bars?: { readonly sounding: number; readonly silent: number };
  /** Louder or softer than usual, dB. */
  readonly gainDb?: number;
  /** What it sounds like; unless said, as the player has set it. */
  readonly sound?: ClickSound;
}

/** Where a block lies on the audio clock. Every frame follows from these numbers; none is added up. */
export interface BlockLayout {
  readonly sampleRateHz: number;
  readonly tempoBpm: number;
  readonly beatsPerBar: number;
  /** Frame of the first beat of the count-in. */
  readonly startFrame: number;
  readonly countInBars: number;
  /** Bar of the block that follows the count-in: 0, or later when a pause cut the block. */
  readonly firstBar: number;
  /** Bars of the whole block, count-in not included. Bars firstBar to barCount − 1 are played. */
  readonly barCount: number;
  /** Bars of the exercise in a round; as many bars of plain time follow. */
  readonly roundBars: number;
  /** Tempo changes at bar lines of the block, in order; none unless said. */
  readonly changes?: readonly TempoChange[];
  readonly click?: ClickWay;
}
