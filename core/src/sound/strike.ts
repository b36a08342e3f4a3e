/** One stroke on one drum, from the first sample on. */
import type { Random } from '../random.ts';
import { amplitudeOfDb, frameOfSec } from '../units.ts';
import { CONTACT_SEC, CONTACT_SHARE, LEVEL_WINDOW_SEC } from './parameters.ts';
import type { Mode, Rustle, Voice } from './voices.ts';

/** How far a sound falls before it is cut, in time constants: e^-9 is −78 dB. */
const TIME_CONSTANTS_KEPT = 9;
/** The last part of a stroke is faded out over this share of it, so that no cut is heard. */
const FADE_SHARE = 0.05;

export interface StrikeOptions {
  readonly sampleRateHz: number;
  /** RMS over the first 20 ms, dB of full scale. */
  readonly levelDb: number;
  /** Chance for the noise: each stroke differs a little. */
  readonly random: Random;
}

/**
 * The samples of one stroke. The first of them is its onset: it has a fifth of the peak.
 * @returns samples whose RMS over the first 20 ms is exactly `levelDb`.
 */
export function strike(voice: Voice, { sampleRateHz, levelDb, random }: StrikeOptions): Float32Array {
  const longestSec = Math.max(...[...voice.modes, ...voice.rustles].map(({ decaySec }) => decaySec));
  const body = new Float64Array(frameOfSec(longestSec * TIME_CONSTANTS_KEPT, sampleRateHz));
  for (const mode of voice.modes) addMode(body, mode, { glide: voice.glide, sampleRateHz });
  for (const rustle of voice.rustles) addRustle(body, rustle, { random, sampleRateHz });
  addContact(body, sampleRateHz);
  fadeOut(body);
  const gain = amplitudeOfDb(levelDb) / rms(body.subarray(0, frameOfSec(LEVEL_WINDOW_SEC, sampleRateHz)));
  return Float32Array.from(body, (sample) => sample * gain);
}

function addMode(body: Float64Array, mode: Mode, { glide, sampleRateHz }: { glide: Voice['glide']; sampleRateHz: number }): void {
  if (mode.hz >= sampleRateHz / 2) return;
  const step = (2 * Math.PI * mode.hz) / sampleRateHz;
  const fall = Math.exp(-1 / (mode.decaySec * sampleRateHz));
  const settle = Math.exp(-1 / (glide.decaySec * sampleRateHz));
  let [phase, gain, bend] = [0, mode.gain, glide.share];
  for (let i = 0; i < body.length; i++) {
    body[i]! += gain * Math.sin(phase);
    phase += step * (1 + bend);
    gain *= fall;
    bend *= settle;
  }
}

/** White noise through one pole each way. */
function addRustle(body: Float64Array, rustle: Rustle, { random, sampleRateHz }: { random: Random; sampleRateHz: number }): void {
  const nyquistHz = sampleRateHz / 2;
  const smooth = 1 - Math.exp((-2 * Math.PI * Math.min(rustle.highHz, 0.9 * nyquistHz)) / sampleRateHz);
  const drift = 1 - Math.exp((-2 * Math.PI * Math.min(rustle.lowHz, 0.5 * nyquistHz)) / sampleRateHz);
  const fall = Math.exp(-1 / (rustle.decaySec * sampleRateHz));
  let [low, slow, gain] = [0, 0, rustle.gain];
  for (let i = 0; i < body.length; i++) {
    low += smooth * (2 * random() - 1 - low);
    slow += drift * (low - slow);
    body[i]! += gain * (low - slow);
    gain *= fall;
  }
}

/** Stick on head: makes the very first sample part of the stroke, so that its onset is its frame. */
function addContact(body: Float64Array, sampleRateHz: number): void {
  const peak = body.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  const fall = Math.exp(-1 / (CONTACT_SEC * sampleRateHz));
  let push = CONTACT_SHARE * peak - body[0]!;
  for (let i = 0; i < body.length && Math.abs(push) > 1e-6 * peak; i++) {
    body[i]! += push;
    push *= fall;
  }
}

function fadeOut(body: Float64Array): void {
  const length = Math.ceil(body.length * FADE_SHARE);
  for (let i = 0; i < length; i++) body[body.length - 1 - i]! *= i / length;
}

const rms = (samples: Float64Array): number => Math.sqrt(samples.reduce((sum, sample) => sum + sample * sample, 0) / samples.length);
