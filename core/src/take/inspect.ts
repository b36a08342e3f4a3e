/** Looks for what makes a recording doubtful: silence, clipping, holes, too little of it. */
import { dbOfAmplitude, secOfFrames } from '../units.ts';
import * as P from './parameters.ts';
import type { Take, TakeProblem } from './take.ts';

/** What was seen of a recording so far; `inspectBlock` changes it in place, and its size does not grow with the sound. */
export interface Inspection {
  readonly sampleRateHz: number;
  frames: number;
  peak: number;
  readonly clipping: Clipping;
  readonly holes: Holes;
}

interface Clipping {
  /** From this on a sample may be clipped, as far as the loudest one so far tells. */
  limit: number;
  /** Samples in a row at the limit, and the last of them. */
  run: number;
  lastValue: number;
  lastFrame: number;
  places: ClippedPlace[];
}

/** First frame of a clipped place, and the highest value that enough samples in a row there reach. */
interface ClippedPlace {
  readonly frame: number;
  level: number;
}

interface Holes {
  count: number;
  longest: number;
  firstFrame: number;
  run: number;
  sounded: boolean;
}

/** Nothing seen yet. */
export const startInspection = (sampleRateHz: number): Inspection => ({
  sampleRateHz,
  frames: 0,
  peak: 0,
  clipping: { limit: P.CLIP_NEAR_PEAK * P.CLIP_FULL_SCALE, run: 0, lastValue: 0, lastFrame: Number.NEGATIVE_INFINITY, places: [] },
  holes: { count: 0, longest: 0, firstFrame: 0, run: 0, sounded: false },
});

/** Looks at one more block (mono, full scale ±1, any length). */
export const inspectBlock = (state: Inspection, block: Float32Array): void => {
  const { clipping, holes } = state;
  for (let i = 0; i < block.length; i++) {
    const value = block[i]!;
    const size = Math.abs(value);
    if (size > state.peak) {
      state.peak = size;
      raiseLimit(clipping, size);
    }
    if (size >= clipping.limit) clip(state, value, state.frames + i);
    else clipping.run = 0;
    if (value === 0) holes.run++;
    else closeHole(holes, state.frames + i);
  }
  state.frames += block.length;
};

/** The flaws, in order of time. With `strokeTimesSec` the share of strokes that clip is told, else it is 0. */
export const inspected = (state: Inspection, strokeTimesSec: readonly number[] = []): TakeProblem[] => {
  const durationSec = secOfFrames(state.frames, state.sampleRateHz);
  if (state.frames === 0) return [{ code: 'take-empty', severity: 'refused', params: {} }];
  const peakDb = Math.max(-999, dbOfAmplitude(state.peak));
  if (peakDb < P.SILENT_DB) return [{ code: 'take-silent', severity: 'refused', params: { peakDb } }];
  const problems: TakeProblem[] = [];
  if (durationSec < P.SHORTEST_SEC) problems.push({ code: 'take-too-short', severity: 'doubtful', params: { durationSec } });
  return [...problems, ...clippingProblem(state, strokeTimesSec), ...holesProblem(state)];
};

/** The flaws of a whole take. */
export const inspect = ({ samples, clock }: Take, strokeTimesSec: readonly number[] = []): TakeProblem[] => {
  const state = startInspection(clock.sampleRateHz);
  inspectBlock(state, samples);
  return inspected(state, strokeTimesSec);
};

/** A louder sample tells that what was taken for clipped lies below the ceiling. */
const raiseLimit = (clipping: Clipping, peak: number): void => {
  const limit = P.CLIP_NEAR_PEAK * Math.min(1, Math.max(peak, P.CLIP_FULL_SCALE));
  if (limit <= clipping.limit) return;
  const last = clipping.places.at(-1);
  clipping.limit = limit;
  clipping.places = clipping.places.filter(({ level }) => level >= limit);
  clipping.run = 0;
  if (clipping.places.at(-1) !== last) clipping.lastFrame = Number.NEGATIVE_INFINITY;
};

/** Notes a sample at the limit; places are the first frames of runs of them, those soon after the one before left out. */
const clip = ({ clipping, sampleRateHz }: Inspection, value: number, frame: number): void => {
  clipping.run = clipping.run > 0 && value * clipping.lastValue > 0 ? clipping.run + 1 : 1;
  const level = clipping.run > 1 ? Math.min(Math.abs(value), Math.abs(clipping.lastValue)) : Math.abs(value);
  clipping.lastValue = value;
  if (clipping.run < P.CLIP_RUN_FRAMES) return;
  const before = clipping.places.at(-1);
  if (before && frame - clipping.lastFrame <= P.CLIP_PLACE_SEC * sampleRateHz) before.level = Math.max(before.level, level);
  else clipping.places.push({ frame: frame - P.CLIP_RUN_FRAMES + 1, level });
  clipping.lastFrame = frame;
};

const clippingProblem = ({ clipping, peak, sampleRateHz }: Inspection, strokeTimesSec: readonly number[]): TakeProblem[] => {
  const { places } = clipping;
  if (peak < P.CLIP_FULL_SCALE || places.length === 0) return [];
  const times = places.map(({ frame }) => secOfFrames(frame, sampleRateHz));
  const struck = shareNear(strokeTimesSec, times);
  return [{ code: 'take-clipped', severity: 'doubtful', at: times[0]!, params: { clippedCount: places.length, strokeShare: struck } }];
};

/** Share of the strokes that one of the rising `times` follows at once. */
const shareNear = (strokeTimesSec: readonly number[], times: readonly number[]): number => {
  if (strokeTimesSec.length === 0) return 0;
  let next = 0;
  let struck = 0;
  for (const stroke of [...strokeTimesSec].sort((a, b) => a - b)) {
    while (next < times.length && times[next]! < stroke - 0.001) next++;
    if (next < times.length && times[next]! < stroke + P.CLIP_PLACE_SEC) struck++;
  }
  return struck / strokeTimesSec.length;
};

/** A long run of exact zeros with sound before and behind is a hole. */
const closeHole = (holes: Holes, frame: number): void => {
  if (holes.sounded && holes.run >= P.GAP_ZERO_FRAMES) {
    if (holes.count === 0) holes.firstFrame = frame - holes.run;
    holes.count++;
    holes.longest = Math.max(holes.longest, holes.run);
  }
  holes.sounded = true;
  holes.run = 0;
};

const holesProblem = ({ holes, sampleRateHz }: Inspection): TakeProblem[] => {
  if (holes.count === 0) return [];
  const params = { gapCount: holes.count, longestSec: secOfFrames(holes.longest, sampleRateHz) };
  return [{ code: 'take-gaps', severity: 'doubtful', at: secOfFrames(holes.firstFrame, sampleRateHz), params }];
};
