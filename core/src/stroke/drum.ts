/** Tells kinds of drum roughly apart by where their energy lies: a kick from the rest well, the rest from each other hardly. */
import * as P from './parameters.ts';
import type { DrumKind, DrumOdds } from './stroke.ts';

const KINDS: readonly DrumKind[] = ['kick', 'tom', 'snare', 'pad', 'cymbal'];

/** Odds per kind of drum from where the energy lies just after the onset. */
export const drumOddsOf = (place: number): DrumOdds => {
  const kick = 1 / (1 + Math.exp((place - P.KICK_PLACE) / P.KICK_PLACE_STEP));
  const cymbal = (1 - kick) / (1 + Math.exp((P.CYMBAL_PLACE - place) / P.CYMBAL_PLACE_STEP));
  const rest = 1 - kick - cymbal;
  return { kick, tom: P.REST_ODDS.tom * rest, snare: P.REST_ODDS.snare * rest, pad: P.REST_ODDS.pad * rest, cymbal };
};

/** Centre of the energy of band powers (low to high) on the scale of bands: 0 the lowest, 1 past the highest; silence gives 0. */
export const energyPlace = (shape: Float32Array): number => {
  let total = 1e-20;
  let moment = 0;
  for (let b = 0; b < shape.length; b++) {
    total += shape[b]!;
    moment += shape[b]! * b;
  }
  return moment / total / Math.max(1, shape.length);
};

/** The likeliest kind. */
export const drumOf = (odds: DrumOdds): DrumKind => KINDS.reduce((best, kind) => (odds[kind] > odds[best] ? kind : best));
