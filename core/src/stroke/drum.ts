/** Tells kinds of drum roughly apart by where their energy lies. */
import type { DrumKind, DrumOdds } from './stroke.ts';

const KINDS: readonly DrumKind[] = ['kick', 'tom', 'snare', 'pad', 'cymbal'];

/** Odds per kind of drum from the band powers just after the onset. */
export const drumOddsOf = (shape: Float32Array): DrumOdds => {
  let total = 1e-20;
  let centroid = 0;
  for (let b = 0; b < shape.length; b++) {
    total += shape[b]!;
    centroid += shape[b]! * b;
  }
  const place = centroid / total / Math.max(1, shape.length);
  const weights = KINDS.map((_, i) => Math.exp(-0.5 * ((place - CENTRES[i]!) / 0.12) ** 2) + 1e-6);
  const sum = weights.reduce((a, b) => a + b, 0);
  return Object.fromEntries(KINDS.map((kind, i) => [kind, weights[i]! / sum])) as unknown as DrumOdds;
};

const CENTRES = [0.1, 0.25, 0.45, 0.65, 0.85];

/** The likeliest kind. */
export const drumOf = (odds: DrumOdds): DrumKind => KINDS.reduce((best, kind) => (odds[kind] > odds[best] ? kind : best));
