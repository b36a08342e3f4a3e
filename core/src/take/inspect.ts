/** Looks for what makes a recording doubtful: silence, clipping, holes, too little of it. */
import { dbOfAmplitude, secOfFrames } from '../units.ts';
import * as P from './parameters.ts';
import type { Take, TakeProblem } from './take.ts';

/** The flaws of a take, in order of time. With `strokeTimesSec` the share of strokes that clip is told, else it is 0. */
export const inspect = (take: Take, strokeTimesSec: readonly number[] = []): TakeProblem[] => {
  const { samples, clock } = take;
  const durationSec = secOfFrames(samples.length, clock.sampleRateHz);
  if (samples.length === 0) return [{ code: 'take-empty', severity: 'refused', params: {} }];
  const peak = peakOf(samples);
  const peakDb = Math.max(-999, dbOfAmplitude(peak));
  if (peakDb < P.SILENT_DB) return [{ code: 'take-silent', severity: 'refused', params: { peakDb } }];
  const problems: TakeProblem[] = [];
  if (durationSec < P.SHORTEST_SEC) problems.push({ code: 'take-too-short', severity: 'doubtful', params: { durationSec } });
  return [...problems, ...clipping(take, peak, strokeTimesSec), ...gaps(take)];
};

const peakOf = (samples: Float32Array): number => {
  let peak = 0;
  for (const value of samples) if (Math.abs(value) > peak) peak = Math.abs(value);
  return peak;
};

const clipping = ({ samples, clock }: Take, peak: number, strokeTimesSec: readonly number[]): TakeProblem[] => {
  if (peak < P.CLIP_FULL_SCALE) return [];
  const places = clippedPlaces(samples, P.CLIP_NEAR_PEAK * Math.min(peak, 1), P.CLIP_PLACE_SEC * clock.sampleRateHz);
  if (places.length === 0) return [];
  const times = places.map((frame) => secOfFrames(frame, clock.sampleRateHz));
  const struck = strokeTimesSec.filter((stroke) => times.some((time) => time >= stroke - 0.001 && time < stroke + P.CLIP_PLACE_SEC)).length;
  const strokeShare = strokeTimesSec.length > 0 ? struck / strokeTimesSec.length : 0;
  return [{ code: 'take-clipped', severity: 'doubtful', at: times[0]!, params: { clippedCount: places.length, strokeShare } }];
};

/** First frames of the runs at or above `limit`, those nearer than `mergeFrames` to the one before left out. */
const clippedPlaces = (samples: Float32Array, limit: number, mergeFrames: number): number[] => {
  const places: number[] = [];
  let run = 0;
  let last = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < samples.length; i++) {
    run = Math.abs(samples[i]!) >= limit && (run === 0 || samples[i]! * samples[i - 1]! > 0) ? run + 1 : 0;
    if (run < P.CLIP_RUN_FRAMES) continue;
    if (i - last > mergeFrames) places.push(i - P.CLIP_RUN_FRAMES + 1);
    last = i;
  }
  return places;
};

/** Holes: long runs of exact zeros with sound before and behind. */
const gaps = ({ samples, clock }: Take): TakeProblem[] => {
  let gapCount = 0;
  let longest = 0;
  let first = 0;
  let run = 0;
  let sounded = false;
  for (let i = 0; i < samples.length; i++) {
    if (samples[i] === 0) {
      run++;
      continue;
    }
    if (sounded && run >= P.GAP_ZERO_FRAMES) {
      if (gapCount === 0) first = i - run;
      gapCount++;
      longest = Math.max(longest, run);
    }
    sounded = true;
    run = 0;
  }
  if (gapCount === 0) return [];
  const params = { gapCount, longestSec: secOfFrames(longest, clock.sampleRateHz) };
  return [{ code: 'take-gaps', severity: 'doubtful', at: secOfFrames(first, clock.sampleRateHz), params }];
};
