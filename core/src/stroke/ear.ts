/** The ear: takes sound in blocks of any size, gives provisional strokes at once and the final ones at the end. */
import { ParameterError } from '../errors.ts';
import { type BandBank, bandPowers, createBandBank } from '../signal/index.ts';
import type { Take } from '../take/index.ts';
import { analyse, type RawCandidate, type Stretch } from './analyse.ts';
import { type ClickVoice, clickVoicesOf, withoutClicks } from './clicks.ts';
import { addFound, type Found, foundAt, startFound } from './found.ts';
import { judge } from './judge.ts';
import { createLive, type LiveState, stepLive } from './live.ts';
import { addLoudness, type Loudness, type LoudnessState, loudnessOf, startLoudness } from './loudness.ts';
import * as P from './parameters.ts';
import type { Candidate, Stroke } from './stroke.ts';

/** What the ear is told. Knowing when the click sounded is a condition of the recording, not of the music. */
export interface EarOptions {
  readonly sampleRateHz: number;
  /** Times in seconds from the start at which a click may bleed into the recording. */
  readonly clickTimesSec?: readonly number[];
  /** Which of the click's sounds it was each time, in the same order; without it they are taken to sound alike. */
  readonly clickVoices?: readonly string[];
}

/** The ear's memory; `step` changes it in place, and it never holds more than a minute of sound. */
export interface EarState {
  readonly sampleRateHz: number;
  readonly hopSamples: number;
  readonly clicks: readonly ClickVoice[];
  readonly bank: BandBank;
  /** Sound from frame `firstFrame` on, and the band powers of its frames. */
  samples: Float32Array;
  powers: Float32Array;
  firstFrame: number;
  sampleCount: number;
  frameCount: number;
  /** Candidates of the sound already let go, and the frame up to which there are any. */
  readonly found: Found;
  foundUntilFrame: number;
  readonly loudness: LoudnessState;
  /** Null when nobody asked for provisional strokes. */
  readonly live: LiveState | null;
}

/** What the ear heard in the end. `candidates` hold every stroke and what is weaker, both in rising time. */
export interface Heard {
  readonly candidates: readonly Candidate[];
  readonly strokes: readonly Stroke[];
  /** How loud it was at any moment; absent where strokes come from no sound, as from a MIDI file. */
  readonly loudness?: Loudness;
}

/** A fresh ear. Sample rates from 8 to 192 kHz; others throw a ParameterError. */
export const createEar = (options: EarOptions): EarState => {
  const ear = earForTheEnd(options);
  return { ...ear, live: createLive(ear.bank.bandCount) };
};

/** An ear that gives nothing before the end, and so hears faster. */
export const earForTheEnd = ({ sampleRateHz, clickTimesSec = [], clickVoices = [] }: EarOptions): EarState => {
  if (!(sampleRateHz >= 8000 && sampleRateHz <= 192000)) throw new ParameterError('sampleRateHz', sampleRateHz, '8000 to 192000');
  const bank = createBandBank({
    sampleRateHz,
    windowSecs: P.WINDOW_SECS,
    lowHz: P.BAND_LOW_HZ,
    highHz: P.BAND_HIGH_HZ,
    bandCount: P.BAND_COUNT,
  });
  return {
    sampleRateHz,
    hopSamples: Math.round(P.HOP_SEC * sampleRateHz),
    clicks: clickVoicesOf(clickTimesSec, clickVoices),
    bank,
    samples: new Float32Array(sampleRateHz),
    powers: new Float32Array(1024 * bank.bandCount),
    firstFrame: 0,
    sampleCount: 0,
    frameCount: 0,
    found: startFound(),
    foundUntilFrame: 0,
    loudness: startLoudness(),
    live: null,
  };
};

/**
 * Hears one more block (mono, full scale ±1, any length) and gives the provisional strokes that became certain with it: within 60 ms of
 * their sound, with the threshold of the moment. `state` is changed and handed back.
 */
export const step = (state: EarState, block: Float32Array): { state: EarState; strokes: Stroke[] } => {
  const strokes: Stroke[] = [];
  const capacity = P.MEMORY_FRAMES * state.hopSamples;
  for (let at = 0; at < block.length; ) {
    const count = Math.min(block.length - at, capacity - state.sampleCount);
    append(state, block.subarray(at, at + count));
    at += count;
    analyseFrames(state, { flush: false, strokes });
    if (state.sampleCount === capacity) letGo(state);
  }
  return { state, strokes };
};

/** Ends the take: candidates and strokes of all that was heard, judged over the whole. The state is used up. */
export const finish = (state: EarState): Heard => {
  const heard = judge(finishRaw(state));
  return { ...heard, loudness: loudnessOf(state.loudness, state.hopSamples / state.sampleRateHz) };
};

const finishRaw = (state: EarState): Found => {
  analyseFrames(state, { flush: true, strokes: [] });
  collect(state, { untilFrame: state.firstFrame + state.frameCount, flush: true });
  state.samples = new Float32Array(0);
  state.powers = new Float32Array(0);
  return state.found;
};

/** Hears a whole take at once. */
export const hear = (take: Take, options: Omit<EarOptions, 'sampleRateHz'> = {}): Heard =>
  finish(step(earForTheEnd({ ...options, sampleRateHz: take.clock.sampleRateHz }), take.samples).state);

/** The candidates of a whole take before they are judged: for the bench that learns the judging. */
export const hearRaw = (take: Take, options: Omit<EarOptions, 'sampleRateHz'> = {}): readonly RawCandidate[] => {
  const found = finishRaw(step(earForTheEnd({ ...options, sampleRateHz: take.clock.sampleRateHz }), take.samples).state);
  return Array.from({ length: found.count }, (_, i) => foundAt(found, i));
};

/** Everything in a take that could be a stroke, down to the floor, in rising time. */
export const candidates = (take: Take, options: Omit<EarOptions, 'sampleRateHz'> = {}): readonly Candidate[] => hear(take, options).candidates;

const append = (state: EarState, block: Float32Array): void => {
  const needed = state.sampleCount + block.length;
  if (needed > state.samples.length) {
    const larger = new Float32Array(Math.min(P.MEMORY_FRAMES * state.hopSamples, Math.max(needed, 2 * state.samples.length)));
    larger.set(state.samples.subarray(0, state.sampleCount));
    state.samples = larger;
  }
  state.samples.set(block, state.sampleCount);
  state.sampleCount = needed;
};

/** Band powers of all frames that lie wholly in the sound so far; with `flush` of the rest too, silence taken for what is missing. */
const analyseFrames = (state: EarState, { flush, strokes }: { flush: boolean; strokes: Stroke[] }): void => {
  const { bank, hopSamples } = state;
  const sound = state.samples.subarray(0, state.sampleCount);
  const last = flush ? state.sampleCount : state.sampleCount - bank.halfSamples;
  for (let centre = state.frameCount * hopSamples; centre <= last && centre < state.sampleCount; centre += hopSamples) {
    growPowers(state);
    const outOffset = state.frameCount * bank.bandCount;
    bandPowers(bank, sound, { centre, out: state.powers, outOffset });
    state.frameCount++;
    const stroke = state.live && stepLive(state.live, state);
    if (stroke) strokes.push(stroke);
  }
};

const growPowers = (state: EarState): void => {
  if ((state.frameCount + 1) * state.bank.bandCount <= state.powers.length) return;
  const larger = new Float32Array(2 * state.powers.length);
  larger.set(state.powers);
  state.powers = larger;
};

/** The memory is full: candidates are taken from it, and its older part goes. The newest tenth stays, so that statistics have a past. */
const letGo = (state: EarState): void => {
  collect(state, { untilFrame: state.firstFrame + state.frameCount - P.SEAM_FRAMES, flush: false });
  const gone = P.FORGET_FRAMES;
  state.samples.copyWithin(0, gone * state.hopSamples, state.sampleCount);
  state.powers.copyWithin(0, gone * state.bank.bandCount, state.frameCount * state.bank.bandCount);
  state.sampleCount -= gone * state.hopSamples;
  state.frameCount -= gone;
  state.firstFrame += gone;
};

/** Analyses what is in memory and keeps what was heard from where the last analysis ended to `untilFrame`; `flush` at the end of the take. */
const collect = (state: EarState, { untilFrame, flush }: { untilFrame: number; flush: boolean }): void => {
  const { hopSamples, sampleRateHz, firstFrame } = state;
  const fromSec = (state.foundUntilFrame * hopSamples) / sampleRateHz;
  const untilSec = (untilFrame * hopSamples) / sampleRateHz;
  const startSec = (firstFrame * hopSamples) / sampleRateHz;
  const stretch = stretchInMemory(state, startSec);
  addLoudness(state.loudness, { spectra: stretch.spectra, firstFrame }, { untilFrame, flush });
  for (const candidate of analyse(stretch)) {
    const timeSec = candidate.timeSec + startSec;
    if (timeSec >= fromSec && timeSec < untilSec) addFound(state.found, { ...candidate, timeSec });
  }
  state.foundUntilFrame = untilFrame;
};

/** The sound in memory, its click bleed taken out and the band powers there taken anew. */
const stretchInMemory = (state: EarState, startSec: number): Stretch => {
  const { bank, sampleRateHz, hopSamples, frameCount } = state;
  const heard = state.samples.subarray(0, state.sampleCount);
  const samples = withoutClicks({ samples: heard, sampleRateHz, startFrame: state.firstFrame * hopSamples }, state.clicks);
  let powers = state.powers;
  if (samples !== heard) {
    powers = state.powers.slice();
    const frameOf = (sec: number) => (sec * sampleRateHz) / hopSamples;
    const reach = bank.halfSamples / hopSamples;
    const clicked = state.clicks.flatMap(({ timesSec, lastsSec }) => timesSec.map((time) => ({ sec: time - startSec, lastsSec })));
    for (const { sec, lastsSec } of clicked) {
      const to = Math.min(frameCount - 1, Math.ceil(frameOf(sec + lastsSec) + reach));
      for (let n = Math.max(0, Math.floor(frameOf(sec - P.CLICK_BEFORE_SEC) - reach)); n <= to; n++) {
        bandPowers(bank, samples, { centre: n * hopSamples, out: powers, outOffset: n * bank.bandCount });
      }
    }
  }
  return { samples, spectra: { powers, frameCount, bandCount: bank.bandCount }, hopSamples, sampleRateHz };
};
