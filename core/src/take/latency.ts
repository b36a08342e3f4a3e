/** How long a click takes from leaving the device to arriving in a take, by finding its own sound there: the loopback, and the click's bleed. */
import { median, robustSpread } from '../quantiles.ts';
import { parabolaPeak } from '../signal/index.ts';
import { dbOfAmplitude } from '../units.ts';
import * as P from './parameters.ts';

/** A click as it was scheduled, in frames of the take, with the samples it was made of. */
export interface SentClick {
  readonly frame: number;
  readonly sound: Float32Array;
}

/** Where the clicks were found. */
export interface ClickLatency {
  /** Median over the clicks that were found. */
  readonly latencySec: number;
  /** Their 1.4826 · MAD. */
  readonly spreadSec: number;
  readonly foundCount: number;
  /** How loud they arrive: median RMS over the 20 ms after, dB of full scale, as a stroke's volume is told. */
  readonly levelDb: number;
}

/**
 * Looks for clicks in a recording. All of one sound are laid upon each other, so that a click far below what was played at it stands out; then each is
 * looked for by itself around the place where all are.
 * @param samples the take, full scale ±1. @param clicks in any order; those nearer to its end than what is searched are left out.
 * @returns null when too few are found, or they do not lie in one place.
 */
export const clickLatency = (samples: Float32Array, sampleRateHz: number, clicks: readonly SentClick[]): ClickLatency | null => {
  const reach = Math.round(P.LATENCY_MOST_SEC * sampleRateHz);
  const whole = clicks.filter(({ frame, sound }) => frame >= 0 && frame + reach + sound.length <= samples.length);
  const sounds = [...new Set(whole.map(({ sound }) => sound))].map((sound) => whole.filter((click) => click.sound === sound));
  const coarse = sounds.filter((same) => same.length >= P.LATENCY_CLICKS_NEEDED).map((same) => laidOver(samples, same, reach));
  const best = coarse.sort((a, b) => b.standsOut - a.standsOut)[0];
  if (!best || best.standsOut < P.LATENCY_STANDS_OUT) return null;
  const near = Math.round(P.LATENCY_NEAR_SEC * sampleRateHz);
  const between = { from: Math.max(0, best.lag - near), to: best.lag + near };
  const found = whole.flatMap((click) => {
    const lag = ownLag(samples, click, between);
    return lag === null ? [] : [{ lag, frame: Math.round(click.frame + lag) }];
  });
  if (found.length < P.LATENCY_CLICKS_NEEDED) return null;
  const levelOf = ({ frame }: { frame: number }) => dbOfAmplitude(rmsOf(samples, frame, frame + Math.round(P.LEVEL_SEC * sampleRateHz)));
  const lags = found.map(({ lag }) => lag);
  return {
    latencySec: median(lags) / sampleRateHz,
    spreadSec: robustSpread(lags) / sampleRateHz,
    foundCount: found.length,
    levelDb: median(found.map(levelOf)),
  };
};

/** The lag at which the mean of what follows the clicks is most like their sound, and how far that stands out from all other lags. */
const laidOver = (samples: Float32Array, clicks: readonly SentClick[], reach: number): { lag: number; standsOut: number } => {
  const { sound } = clicks[0]!;
  const mean = new Float64Array(reach + sound.length);
  for (const { frame } of clicks) {
    const scale = 1 / (rmsOf(samples, frame, frame + mean.length) + 1e-9);
    for (let i = 0; i < mean.length; i++) mean[i] = mean[i]! + scale * samples[frame + i]!;
  }
  const likeness = Float64Array.from({ length: reach }, (_, lag) => Math.abs(dot(mean, sound, lag)));
  const lag = likeness.indexOf(likeness.reduce((most, value) => Math.max(most, value), 0));
  const usual = Math.sqrt(likeness.reduce((sum, value, i) => (Math.abs(i - lag) > sound.length ? sum + value * value : sum), 0) / reach);
  return { lag, standsOut: likeness[lag]! / (usual + 1e-12) };
};

const rmsOf = (samples: Float32Array, from: number, to: number): number => {
  let energy = 0;
  for (let i = from; i < to; i++) energy += samples[i]! * samples[i]!;
  return Math.sqrt(energy / (to - from));
};

const dot = (signal: Float32Array | Float64Array, sound: Float32Array, at: number): number => {
  let sum = 0;
  for (let i = 0; i < sound.length; i++) sum += signal[at + i]! * sound[i]!;
  return sum;
};

/** Where one click lies between two lags, with fraction; null when what is there is not like it. */
const ownLag = (samples: Float32Array, { frame, sound }: SentClick, { from, to }: { from: number; to: number }): number | null => {
  const likeness = Float64Array.from({ length: to - from + 1 }, (_, i) => Math.abs(dot(samples, sound, frame + from + i)));
  const at = likeness.indexOf(likeness.reduce((most, value) => Math.max(most, value), 0));
  const first = frame + from + at;
  const norm = rmsOf(samples, first, first + sound.length) * rmsOf(sound, 0, sound.length) * sound.length;
  if (at === 0 || at === to - from || likeness[at]! < P.LATENCY_LIKE * norm) return null;
  return from + at + parabolaPeak(likeness[at - 1]!, likeness[at]!, likeness[at + 1]!).offset;
};
