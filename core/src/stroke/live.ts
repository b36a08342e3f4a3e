/** The causal pass: provisional strokes a few dozen milliseconds after their sound, from a floor and threshold of the moment. */
import { type BandBank, parabolaPeak } from '../signal/index.ts';
import { drumOddsOf, drumOf, energyPlace } from './drum.ts';
import { riseOf } from './novelty.ts';
import * as P from './parameters.ts';
import { refineOnset } from './refine.ts';
import type { Stroke } from './stroke.ts';
import { volumeDb } from './volume.ts';

/** Frames kept by the causal pass: enough for the comparison and for the volume after a peak. */
const RING = 64;

/** The sound in memory, as the ear holds it: samples and band powers from frame `firstFrame` of the take on. */
export interface SoundInMemory {
  readonly sampleRateHz: number;
  readonly hopSamples: number;
  readonly bank: BandBank;
  readonly samples: Float32Array;
  readonly powers: Float32Array;
  readonly firstFrame: number;
  readonly sampleCount: number;
  readonly frameCount: number;
}

/** Running floors and the last frames. */
export interface LiveState {
  readonly floors: Float64Array;
  readonly energies: Float32Array;
  readonly curve: Float32Array;
  frames: number;
}

/** A causal pass that has heard nothing. */
export const createLive = (bandCount: number): LiveState => ({
  floors: new Float64Array(bandCount),
  energies: new Float32Array(RING * bandCount),
  curve: new Float32Array(RING),
  frames: 0,
});

/** Hears the newest frame of `ear`; gives the stroke whose peak now has all the sound it needs behind it. */
export const stepLive = (live: LiveState, ear: SoundInMemory): Stroke | null => {
  follow(live, ear);
  const newest = live.frames - 1;
  live.curve[(newest - P.AFTER_FRAMES + 1 + RING) % RING] = riseBefore(live, ear.bank.bandCount);
  const peak = newest - P.LIVE_LAG_FRAMES;
  if (peak < P.BEFORE_FAR_FRAMES || !isPeak(live, peak)) return null;
  return provisional(live, ear, peak);
};

/** Floors fall at once and rise slowly, so that they rest on the quietest of the last seconds. */
const follow = (live: LiveState, ear: SoundInMemory): void => {
  const { bandCount } = ear.bank;
  const from = (ear.frameCount - 1) * bandCount;
  const row = (live.frames % RING) * bandCount;
  for (let b = 0; b < bandCount; b++) {
    const power = ear.powers[from + b]! + 1e-14;
    const floor = live.floors[b]!;
    live.floors[b] = floor === 0 ? power : power < floor ? floor + P.LIVE_FALL * (power - floor) : floor * P.LIVE_RISE;
    live.energies[row + b] = power / live.floors[b]!;
  }
  live.frames++;
};

const riseBefore = (live: LiveState, bandCount: number): number => {
  const newest = live.frames - 1;
  if (newest < P.AFTER_FRAMES + P.BEFORE_FAR_FRAMES) return 0;
  const centre = newest - P.AFTER_FRAMES + 1;
  let sum = 0;
  for (let b = 0; b < bandCount; b++) {
    let after = 0;
    for (let n = centre; n <= newest; n++) after += live.energies[(n % RING) * bandCount + b]!;
    let before = 0;
    for (let n = centre - P.BEFORE_FAR_FRAMES; n <= centre - P.BEFORE_NEAR_FRAMES; n++) before += live.energies[(n % RING) * bandCount + b]!;
    sum += Math.log(Math.max(1, riseOf(after, before)));
  }
  return sum / bandCount;
};

const isPeak = (live: LiveState, frame: number): boolean => {
  const value = live.curve[frame % RING]!;
  if (value < P.LIVE_THRESHOLD) return false;
  for (let d = 1; d <= P.PEAK_REACH_FRAMES; d++) {
    if (frame - d >= 0 && live.curve[(frame - d) % RING]! >= value) return false;
    if (live.curve[(frame + d) % RING]! > value) return false;
  }
  return true;
};

const provisional = (live: LiveState, ear: SoundInMemory, frame: number): Stroke => {
  const { hopSamples, sampleRateHz } = ear;
  const at = (n: number) => live.curve[n % RING]!;
  const { offset, height } = parabolaPeak(at(frame - 1), at(frame), at(frame + 1));
  // Live frames count from the start of the take, the ear's memory from its first frame.
  const startSec = (ear.firstFrame * hopSamples) / sampleRateHz;
  const coarseSec = ((frame + offset) * hopSamples) / sampleRateHz - startSec;
  const sound = ear.samples.subarray(0, ear.sampleCount);
  const { timeSec } = refineOnset(sound, sampleRateHz, coarseSec);
  const bands = (Math.round(coarseSec / P.HOP_SEC) + 3) * ear.bank.bandCount;
  const odds = drumOddsOf(energyPlace(ear.powers.subarray(bands, bands + ear.bank.bandCount)));
  const confidence = height / (height + P.LIVE_THRESHOLD);
  return { timeSec: timeSec + startSec, levelDb: volumeDb(sound, sampleRateHz, timeSec), confidence, drum: drumOf(odds) };
};
