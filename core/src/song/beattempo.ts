/** The tempo in a beat curve: first which, by how it repeats itself, then how fast exactly, over its whole length. */
import { autocorrelation, parabolaPeak } from '../signal/index.ts';
import { beatsOfSec, bpmOfBeats, secOfBeats } from '../units.ts';
import { BARS, COUNTED, FINE_PARTS, FINE_SHARE, HOP_SEC, TEMPO_RANGE_BPM, TEMPO_STEP_SHARE } from './parameters.ts';

/** A tempo and how clearly the curve repeats itself at it. */
export interface CurveTempo {
  readonly tempoBpm: number;
  /** Correlation of the curve with itself, a beat to two bars later, mean; about 0 where nothing repeats. */
  readonly strength: number;
}

/** The tempo that one would count; null for a curve without anything in it. */
export function tempoOf(curve: Float64Array): CurveTempo | null {
  const longest = Math.ceil(secOfBeats(2 * Math.max(...BARS), TEMPO_RANGE_BPM.low) / HOP_SEC) + 1;
  const lags = autocorrelation(curve, Math.min(longest, curve.length - 1));
  if (!(lags[0]! > 0)) return null;
  let best = { tempoBpm: 0, worth: Number.NEGATIVE_INFINITY, strength: 0 };
  for (let tempoBpm: number = TEMPO_RANGE_BPM.low; tempoBpm <= TEMPO_RANGE_BPM.high; tempoBpm *= 1 + TEMPO_STEP_SHARE / 2) {
    const strength = repeats(lags, tempoBpm);
    const worth = strength * readiness(tempoBpm);
    if (worth > best.worth) best = { tempoBpm, worth, strength };
  }
  return { tempoBpm: exactTempo(curve, best.tempoBpm, FINE_SHARE), strength: best.strength };
}

/** How readily a tempo is counted, 0 to 1. */
const readiness = (tempoBpm: number): number => Math.exp(-0.5 * (Math.log2(tempoBpm / COUNTED.tempoBpm) / COUNTED.octaves) ** 2);

/** Mean correlation a beat, two beats and a bar later, the bar of four beats or of three, and two bars of it. */
function repeats(lags: Float64Array, tempoBpm: number): number {
  const later = (beats: number) => at(lags, secOfBeats(beats, tempoBpm) / HOP_SEC) / lags[0]!;
  const bar = Math.max(...BARS.map((beats) => later(beats) + later(2 * beats)));
  return (later(1) + later(2) + bar) / 4;
}

/** The highest value within a hop and a half of a place: onsets jitter by as much. */
function at(lags: Float64Array, place: number): number {
  let most = Number.NEGATIVE_INFINITY;
  for (let i = Math.round(place - 1.5); i <= place + 1.5; i++) if (i > 0 && i < lags.length) most = Math.max(most, lags[i]!);
  return Number.isFinite(most) ? most : 0;
}

/**
 * The tempo near another at which the whole curve swings along most, in beats and parts of beats.
 * @param share how far to look on either side.
 */
export function exactTempo(curve: Float64Array, nearBpm: number, share: number): number {
  const durationSec = curve.length * HOP_SEC;
  const stepBpm = bpmOfBeats(0.1, durationSec);
  const count = Math.max(2, Math.ceil((share * nearBpm) / stepBpm));
  const swings = Float64Array.from({ length: 2 * count + 1 }, (_, i) => swing(curve, nearBpm + (i - count) * stepBpm));
  let top = 0;
  for (let i = 0; i < swings.length; i++) if (swings[i]! > swings[top]!) top = i;
  const inside = top > 0 && top < swings.length - 1;
  const { offset } = inside ? parabolaPeak(swings[top - 1]!, swings[top]!, swings[top + 1]!) : { offset: 0 };
  return nearBpm + (top - count + offset) * stepBpm;
}

/** How much of the curve swings at a tempo and its parts: squared length of its vectors. */
const swing = (curve: Float64Array, tempoBpm: number): number =>
  FINE_PARTS.reduce((sum, parts) => {
    const { re, im } = vectorAt(curve, beatsOfSec(parts, tempoBpm));
    return sum + re * re + im * im;
  }, 0);

/** The curve turned back at a rate and summed. @param perSec turns a second. */
function vectorAt(curve: Float64Array, perSec: number): { readonly re: number; readonly im: number } {
  const turn = -2 * Math.PI * perSec * HOP_SEC;
  const [stepRe, stepIm] = [Math.cos(turn), Math.sin(turn)];
  let [re, im, atRe, atIm] = [0, 0, 1, 0];
  for (const value of curve) {
    re += value * atRe;
    im += value * atIm;
    [atRe, atIm] = [atRe * stepRe - atIm * stepIm, atRe * stepIm + atIm * stepRe];
  }
  return { re, im };
}
