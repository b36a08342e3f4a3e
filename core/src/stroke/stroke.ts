/** What the ear gives: strokes with their time, volume and kind of drum, never with what was asked for. */

/** Kinds of drum the ear can tell roughly apart. */
export type DrumKind = 'kick' | 'tom' | 'snare' | 'pad' | 'cymbal';

/** Odds per kind of drum, summing to 1. */
export type DrumOdds = Readonly<Record<DrumKind, number>>;

/** A possible stroke, down to the floor of what could be one. */
export interface Candidate {
  /** Onset in seconds from the start of the take, refined to a frame where possible. */
  readonly timeSec: number;
  /** How far it stands out, comparable within one take only: 1 is the threshold at which it would be a stroke told nothing. */
  readonly strength: number;
  /** RMS over the 20 ms after the onset, dB of full scale. Compare strokes of one drum in one take only. */
  readonly volumeDb: number;
  /** Probability that `timeSec` is within 5 ms of a true stroke, calibrated on takes with known truth. */
  readonly confidence: number;
  readonly drumOdds: DrumOdds;
}

/** A candidate that stands out enough to be a stroke when nothing is known of what was played. */
export interface Stroke {
  readonly timeSec: number;
  readonly levelDb: number;
  readonly confidence: number;
  readonly drum: DrumKind;
}
