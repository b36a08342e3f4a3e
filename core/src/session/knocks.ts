/** Hears single knocks in the microphone's sound, and which of them are two sticks struck together. */
import { type BandBank, bandPowers, createBandBank } from '../signal/index.ts';
import { dbOfPower, frameOfSec, secOfMs } from '../units.ts';
import { KNOCK, STICKS } from './parameters.ts';

/** A short sound that began suddenly. */
export interface Knock {
  /** Frame of the clock of the sound, good to a millisecond. */
  readonly frame: number;
  /** RMS over the 20 ms from it, dB of full scale. */
  readonly levelDb: number;
  /** Whether it sounds like two sticks struck together: bright, without a body, soon over. */
  readonly sticks: boolean;
}

/** What the hearing of knocks remembers; `stepKnocks` changes it in place. */
export interface KnockState {
  readonly sampleRateHz: number;
  readonly hopFrames: number;
  readonly bank: BandBank;
  /** The last of the sound, oldest first; the frame at which its last hop begins, and how much of that is there. */
  readonly past: Float32Array;
  nextFrame: number;
  filled: number;
  /** Power of the brightened sound in each of the last hops, the present one last. */
  readonly hops: Float64Array;
  floor: number;
  sinceKnock: number;
  /** Frame of a knock that is not judged yet. */
  waiting: number | null;
}

const FEW = 1e-12;
const BANDS = { windowSecs: [0.012], lowHz: 60, highHz: 16_000, bandCount: 32 } as const;

/** @param sampleRateHz of the sound. */
export function createKnocks(sampleRateHz: number): KnockState {
  const hopFrames = frameOfSec(secOfMs(1), sampleRateHz);
  return {
    sampleRateHz,
    hopFrames,
    bank: createBandBank({ ...BANDS, sampleRateHz }),
    past: new Float32Array(hopFrames * KNOCK.keptHops),
    nextFrame: Number.NaN,
    filled: 0,
    hops: new Float64Array(KNOCK.beforeHops),
    floor: FEW,
    sinceKnock: KNOCK.apartHops,
    waiting: null,
  };
}

/**
 * Hears the next stretch of sound; any length gives the same knocks. Frames that are missing between two stretches count as silence.
 * @param frame of its first sample. Changes `state`.
 * @returns knocks whose sound is told by now, 80 ms after they began, in order.
 */
export function stepKnocks(state: KnockState, samples: Float32Array, frame: number): readonly Knock[] {
  if (frame !== state.nextFrame + state.filled) beginAt(state, frame);
  const knocks: Knock[] = [];
  for (let at = 0; at < samples.length; ) {
    const count = Math.min(samples.length - at, state.hopFrames - state.filled);
    state.past.set(samples.subarray(at, at + count), state.past.length - state.hopFrames + state.filled);
    state.filled += count;
    at += count;
    if (state.filled < state.hopFrames) continue;
    const knock = hop(state);
    if (knock) knocks.push(knock);
  }
  return knocks;
}

/** A gap in the sound: nothing before it is held against what comes. */
function beginAt(state: KnockState, frame: number): void {
  state.past.fill(0);
  state.nextFrame = frame;
  state.filled = 0;
  state.waiting = null;
}

/** One millisecond is complete. */
function hop(state: KnockState): Knock | null {
  const { past, hopFrames, hops } = state;
  const power = brightPower(past, past.length - hopFrames);
  const before = hops.subarray(0, hops.length - KNOCK.riseHops).reduce((sum, value) => sum + value, 0) / (hops.length - KNOCK.riseHops);
  const sudden = power > KNOCK.rise * Math.max(before, state.floor, FEW) && power > KNOCK.leastPower;
  state.floor += (power < state.floor ? 0.05 : 0.0005) * (power - state.floor);
  hops.copyWithin(0, 1);
  hops[hops.length - 1] = power;
  state.sinceKnock++;
  if (sudden && state.sinceKnock >= KNOCK.apartHops && state.waiting === null) {
    state.waiting = state.nextFrame;
    state.sinceKnock = 0;
  }
  const told = state.waiting !== null && state.sinceKnock >= KNOCK.toldHops ? judge(state) : null;
  state.nextFrame += hopFrames;
  state.filled = 0;
  past.copyWithin(0, hopFrames);
  return told;
}

function judge(state: KnockState): Knock {
  const { past, hopFrames, sampleRateHz } = state;
  const frame = state.waiting!;
  state.waiting = null;
  const onset = past.length - hopFrames * (state.sinceKnock + 1);
  const level = past.subarray(onset, onset + frameOfSec(0.02, sampleRateHz)).reduce((sum, value) => sum + value * value, 0);
  const levelDb = dbOfPower(level / frameOfSec(0.02, sampleRateHz) + FEW);
  return { frame, levelDb, sticks: soundsLikeSticks(featuresAt(state, onset)) };
}

/** What a knock sounds like, dB. */
export interface KnockFeatures {
  /** The bright middle, where sticks ring, over all that is lower. */
  readonly brightDb: number;
  /** The bright middle over what hisses above it. */
  readonly hissDb: number;
  /** How far it has fallen after 50 ms. */
  readonly fallDb: number;
  /** How far it stands above what was there before it: where something rings on, nothing is meant. */
  readonly clearDb: number;
}

const soundsLikeSticks = ({ brightDb, hissDb, fallDb, clearDb }: KnockFeatures): boolean =>
  brightDb >= STICKS.brightDb && hissDb >= STICKS.hissDb && fallDb >= STICKS.fallDb && clearDb >= STICKS.clearDb;

function featuresAt({ past, bank, hopFrames }: KnockState, onset: number): KnockFeatures {
  const bands = new Float32Array(bank.bandCount);
  bandPowers(bank, past, { centre: onset + 5 * hopFrames, out: bands, outOffset: 0 });
  const sum = (fromHz: number, toHz: number) =>
    bands.reduce((all, power, b) => (bank.centresHz[b]! >= fromHz && bank.centresHz[b]! < toHz ? all + power : all), FEW);
  const bright = sum(STICKS.fromHz, STICKS.toHz);
  const early = powerOver(past, onset, { fromHop: 0, hops: 10, hopFrames });
  // What is there all the time is not the knock's; a knock that sinks into it cannot be said to have fallen.
  const always = powerOver(past, onset, { fromHop: -20, hops: 15, hopFrames });
  const late = Math.max(FEW, always / 3, powerOver(past, onset, { fromHop: 50, hops: 20, hopFrames }) - 1.5 * always);
  return {
    brightDb: ratioDb(bright, sum(0, STICKS.fromHz)),
    hissDb: ratioDb(bright, sum(STICKS.toHz, 1e9)),
    fallDb: ratioDb(early, late),
    clearDb: ratioDb(early, always),
  };
}

function powerOver(past: Float32Array, onset: number, { fromHop, hops, hopFrames }: { fromHop: number; hops: number; hopFrames: number }): number {
  let power = FEW;
  for (let k = fromHop; k < fromHop + hops; k++) power += brightPower(past.subarray(0, onset + (k + 1) * hopFrames), onset + k * hopFrames);
  return power / hops;
}

const ratioDb = (a: number, b: number): number => dbOfPower(a / b);

/** Mean square of the differences from sample to sample, which lets go of whatever is low. */
function brightPower(samples: Float32Array, from: number): number {
  let power = 0;
  for (let i = from; i < samples.length; i++) {
    const step = samples[i]! - samples[i - 1]!;
    power += step * step;
  }
  return power / (samples.length - from);
}
