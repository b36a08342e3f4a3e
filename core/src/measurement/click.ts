/** The click as a time base: beats to seconds and back, when the times of the click are known. */

import { median } from '../quantiles.ts';
import { beatSec } from '../units.ts';

/** Beats against seconds at some points, both rising. */
export interface TimeMap {
  readonly beats: Float64Array;
  readonly secs: Float64Array;
}

/** Seconds of a beat: linear between points, going on with the first and last tempo outside. At least two points. */
export const secOfBeat = (map: TimeMap, beat: number): number => interpolate(map.beats, map.secs, beat);

/** Beat of a second, the reverse of secOfBeat. */
export const beatOfSec = (map: TimeMap, sec: number): number => interpolate(map.secs, map.beats, sec);

/** The map whose seconds are all `sec` later. */
export const laterBy = (map: TimeMap, sec: number): TimeMap => ({ beats: map.beats, secs: map.secs.map((at) => at + sec) });

/** The map whose beats are all `beats` higher. */
export const countedFrom = (map: TimeMap, beats: number): TimeMap => ({ beats: map.beats.map((at) => at + beats), secs: map.secs });

function interpolate(from: Float64Array, to: Float64Array, x: number): number {
  let [low, high] = [0, from.length - 1];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (from[middle]! <= x) low = middle;
    else high = middle;
  }
  return to[low]! + ((x - from[low]!) * (to[high]! - to[low]!)) / (from[high]! - from[low]!);
}

/**
 * The map of a click. The first click is beat 0; clicks left out are noticed by the gap, and a click on every second
 * beat, or two in a beat, by the distance to the told tempo.
 * @param clickTimesSec in any order; null of fewer than two different times.
 * @param tempoBpm told; within some per cent of what was clicked.
 */
export function clickMap(clickTimesSec: readonly number[], tempoBpm: number): TimeMap | null {
  const secs = distinct(clickTimesSec);
  if (secs.length < 2) return null;
  const gaps = secs.slice(1).map((sec, i) => sec - secs[i]!);
  const gapSec = median(gaps);
  const perGap = beatsPerGap(gapSec / beatSec(tempoBpm));
  const beats = [0];
  for (const gap of gaps) beats.push(beats.at(-1)! + perGap * Math.max(1, Math.round(gap / gapSec)));
  return { beats: Float64Array.from(beats), secs: Float64Array.from(secs) };
}

/** Times in order, those closer than 20 ms to the one before left out: nobody clicks that fast. */
function distinct(timesSec: readonly number[]): number[] {
  const kept: number[] = [];
  for (const sec of [...timesSec].sort((a, b) => a - b)) {
    if (kept.length === 0 || sec - kept.at(-1)! > 0.02) kept.push(sec);
  }
  return kept;
}

/** Beats in a gap between clicks: whole when a beat or more, a whole fraction of a beat otherwise. */
const beatsPerGap = (ratio: number): number => (ratio >= 0.75 ? Math.max(1, Math.round(ratio)) : 1 / Math.round(1 / ratio));
