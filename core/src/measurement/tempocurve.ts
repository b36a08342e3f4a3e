/** A smooth tempo curve through strokes: robust, local-linear, no narrower than a player's own drift. */

import { median } from '../quantiles.ts';
import type { TimeMap } from './click.ts';
import { CURVE_HALF_BEATS, CURVE_MIN_STROKES } from './parameters.ts';

/** Strokes to fit: beats rising, seconds with the medians of the places already taken away. */
export interface CurvePoints {
  readonly beats: Float64Array;
  readonly secs: Float64Array;
}

/**
 * Seconds at every whole beat from the one before the first point to the one after the last.
 * @param points at least two at different beats.
 * @source [Cleveland1979] tricube weights, then bisquare weights of six median residuals, twice.
 */
export function fitCurve(points: CurvePoints): TimeMap {
  const first = Math.floor(points.beats[0]!) - 1;
  const last = Math.ceil(points.beats.at(-1)!) + 1;
  const beats = Float64Array.from({ length: last - first + 1 }, (_, i) => first + i);
  const trust = new Float64Array(points.beats.length).fill(1);
  let secs = fitAll(points, beats, trust);
  for (let round = 0; round < 2; round++) {
    weigh(points, { beats, secs }, trust);
    secs = fitAll(points, beats, trust);
  }
  return { beats, secs };
}

function fitAll(points: CurvePoints, beats: Float64Array, trust: Float64Array): Float64Array {
  const count = points.beats.length;
  const half = halfWidths(points, beats);
  let from = 0;
  return beats.map((beat, i) => {
    while (from < count - 1 && points.beats[from]! < beat - half[i]!) from += 1;
    while (from > 0 && points.beats[from - 1]! >= beat - half[i]!) from -= 1;
    return localLine(points, trust, { beat, half: half[i]!, from });
  });
}

/** Per beat, the half width that holds enough strokes. */
function halfWidths(points: CurvePoints, beats: Float64Array): Float64Array {
  const { beats: at } = points;
  const enough = Math.min(CURVE_MIN_STROKES, at.length);
  let centre = 0;
  return beats.map((beat) => {
    while (centre < at.length - 1 && at[centre]! < beat) centre += 1;
    let [low, high] = [centre, centre];
    while (high - low + 1 < enough) {
      const goLow = low > 0 && (high === at.length - 1 || beat - at[low - 1]! <= at[high + 1]! - beat);
      if (goLow) low -= 1;
      else high += 1;
    }
    return 1.01 * Math.max(CURVE_HALF_BEATS, beat - at[low]!, at[high]! - beat);
  });
}

/** Weighted straight line around a beat, read off at that beat. */
function localLine(points: CurvePoints, trust: Float64Array, at: { beat: number; half: number; from: number }): number {
  let [weight, sumX, sumY, sumXX, sumXY] = [0, 0, 0, 0, 0];
  for (let i = at.from; i < points.beats.length; i++) {
    const x = points.beats[i]! - at.beat;
    if (x > at.half) break;
    const share = Math.abs(x / at.half);
    const near = 1 - share * share * share;
    const w = trust[i]! * near * near * near;
    const y = points.secs[i]! - points.secs[at.from]!;
    weight += w;
    sumX += w * x;
    sumY += w * y;
    sumXX += w * x * x;
    sumXY += w * x * y;
  }
  const slope = (weight * sumXY - sumX * sumY) / (weight * sumXX - sumX * sumX);
  return points.secs[at.from]! + (sumY - slope * sumX) / weight;
}

/** Bisquare weights: strokes far from the curve lose their say. */
function weigh(points: CurvePoints, curve: TimeMap, trust: Float64Array): void {
  const first = curve.beats[0]!;
  const residuals = points.beats.map((beat, i) => {
    const n = Math.min(curve.beats.length - 2, Math.floor(beat - first));
    const share = beat - first - n;
    return points.secs[i]! - (curve.secs[n]! * (1 - share) + curve.secs[n + 1]! * share);
  });
  const reach = Math.max(0.001, 6 * median(Array.from(residuals, Math.abs)));
  for (let i = 0; i < trust.length; i++) trust[i] = Math.max(0.001, 1 - (residuals[i]! / reach) ** 2) ** 2;
}
