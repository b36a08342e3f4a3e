/** Then and now as sound: the same cycles of two takes, equally loud, in turn or one in each ear, slowed when that is asked for. */
import type { Measurement } from '../measurement/index.ts';
import { loudnessLkfs, resampled, slower } from '../signal/index.ts';
import { truePeak } from '../sound/index.ts';
import { amplitudeOfDb, dbOfAmplitude } from '../units.ts';
import { type Alongside, layAlongside } from './alongside.ts';
import { CEILING_DB, FADE_SEC, STRETCH_SEC, TURNS } from './parameters.ts';

/** A take that can be heard. */
export interface SoundingTake {
  /** Mono, full scale ±1. */
  readonly samples: Float32Array;
  readonly sampleRateHz: number;
  readonly measurement: Measurement;
}

/** inTurn: then, now, and both once more, each in both ears. oneEarEach: then on the left and now on the right, at once. */
export type HeardAs = 'inTurn' | 'oneEarEach';

export interface ThenNowSound {
  readonly left: Float32Array;
  readonly right: Float32Array;
  readonly sampleRateHz: number;
  readonly as: HeardAs;
  /** In seconds of the takes. */
  readonly alongside: Alongside;
  /** Share of the speed it was played at; each stroke comes at its second ÷ speed, at its own pitch. */
  readonly speed: number;
  /** How much each take was turned up, dB; below 0 down. */
  readonly thenGainDb: number;
  readonly nowGainDb: number;
}

export interface ToHearOptions {
  readonly as: HeardAs;
  /** About how long each stretch is as it was played; whole cycles. Five seconds unless said. */
  readonly wantedSec?: number;
  /** Share of the speed it was played at, above 0 and up to 1; 1 unless said. */
  readonly speed?: number;
}

/**
 * Two takes of one phrase at one tempo, to be compared by ear. Both are as loud as the other, as loud as −1 dB true peak allows; the sample rate is
 * that of the later take.
 * @returns null when they have too few strokes in common, or one is silent there.
 */
export function thenNowSound(then: SoundingTake, now: SoundingTake, { as, wantedSec = STRETCH_SEC, speed = 1 }: ToHearOptions): ThenNowSound | null {
  const alongside = layAlongside(then.measurement, now.measurement, wantedSec);
  if (alongside === null) return null;
  const { sampleRateHz } = now;
  const part = (take: SoundingTake, fromSec: number) =>
    slower(cut(take, fromSec, { durationSec: alongside.durationSec, sampleRateHz }), {
      sampleRateHz,
      speed,
      attacksSec: attacksOf(take.measurement, fromSec),
    });
  const parts = [part(then, alongside.thenFromSec), part(now, alongside.nowFromSec)] as const;
  const gains = equallyLoud(parts, sampleRateHz);
  if (gains === null) return null;
  const [was, is] = parts.map((part, k) => faded(part, amplitudeOfDb(gains[k]!), sampleRateHz)) as [Float32Array, Float32Array];
  const channels = as === 'oneEarEach' ? { left: was, right: is } : both(inTurn(was, is));
  return { ...channels, sampleRateHz, as, alongside, speed, thenGainDb: gains[0], nowGainDb: gains[1] };
}

/** A stretch of a take at a sample rate; silence where the take does not go. */
function cut(
  { samples, sampleRateHz: ownHz }: SoundingTake,
  fromSec: number,
  to: { readonly durationSec: number; readonly sampleRateHz: number },
): Float32Array {
  const out = new Float32Array(Math.round(to.durationSec * to.sampleRateHz));
  const from = Math.round(fromSec * ownHz);
  const source = resampled(samples.slice(Math.max(0, from), from + Math.round(to.durationSec * ownHz)), ownHz, to.sampleRateHz);
  const at = Math.max(0, Math.round(-fromSec * to.sampleRateHz));
  out.set(source.subarray(0, Math.max(0, out.length - at)), Math.min(at, out.length));
  return out;
}

/** Everything that was heard of a take, seconds from a moment of it. */
function attacksOf({ strokes, extra }: Measurement, fromSec: number): readonly number[] {
  const times = strokes.flatMap(({ playedSec, graces }) => [...(playedSec === null ? [] : [playedSec]), ...graces.map((grace) => grace.playedSec)]);
  return [...times, ...extra.map(({ timeSec }) => timeSec)].map((sec) => sec - fromSec).filter((sec) => sec > 0);
}

/** Gains in dB with which all parts have one loudness, the highest that keeps each under the ceiling; null when one has none. */
function equallyLoud(parts: readonly [Float32Array, Float32Array], sampleRateHz: number): readonly [number, number] | null {
  const [was, is] = parts.map((part) => loudnessLkfs([part], sampleRateHz)) as [number | null, number | null];
  if (was === null || is === null) return null;
  const most = (part: Float32Array, loudness: number) => loudness + CEILING_DB - dbOfAmplitude(truePeak(part));
  const target = Math.min(most(parts[0], was), most(parts[1], is));
  return [target - was, target - is];
}

/** A part turned up or down, faded in and out so that no cut is heard. */
function faded(part: Float32Array, gain: number, sampleRateHz: number): Float32Array {
  const fade = FADE_SEC * sampleRateHz;
  return part.map((sample, i) => sample * gain * Math.min(1, i / fade, (part.length - 1 - i) / fade));
}

function inTurn(was: Float32Array, is: Float32Array): Float32Array {
  const out = new Float32Array(TURNS * (was.length + is.length));
  for (let turn = 0; turn < TURNS; turn++) {
    out.set(was, turn * (was.length + is.length));
    out.set(is, turn * (was.length + is.length) + was.length);
  }
  return out;
}

const both = (samples: Float32Array) => ({ left: samples, right: samples });
