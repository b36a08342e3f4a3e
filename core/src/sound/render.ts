/** Strokes at their times become one stretch of sound. */
import type { Random } from '../random.ts';
import { amplitudeOfDb, frameOfSec } from '../units.ts';
import { CEILING_DB } from './parameters.ts';
import { truePeak } from './peak.ts';
import { strike } from './strike.ts';
import { voiceOf, voices } from './voices.ts';

/** One stroke to be heard. */
export interface SoundingStroke {
  /** Seconds from the start of the sound; rounded to a frame. */
  readonly timeSec: number;
  /** Name of the drum. */
  readonly surface: string;
  /** RMS over the 20 ms after the onset, dB of full scale. */
  readonly levelDb: number;
}

export interface RenderOptions {
  readonly sampleRateHz: number;
  readonly durationSec: number;
  readonly random: Random;
  /** How many different strikes each drum has, taken in turn; default every stroke is a new one. A few are quicker by far, and nobody hears it. */
  readonly strikesPerDrum?: number;
}

/**
 * @param strokes in any order; those outside the duration are cut off.
 * @returns mono samples. Where the sum would exceed −1 dB true peak, all of it is turned down, so that the strokes keep their differences.
 */
export function renderStrokes(strokes: readonly SoundingStroke[], options: RenderOptions): Float32Array {
  const { sampleRateHz, durationSec } = options;
  const sound = new Float32Array(frameOfSec(durationSec, sampleRateHz));
  const strikeOf = strikesFor(options);
  for (const stroke of strokes) mixIn(sound, strikeOf(stroke), frameOfSec(stroke.timeSec, sampleRateHz));
  return underCeiling(sound);
}

/** Volume that strikes are kept at, dB: any, since a strike only grows with its volume. */
const KEPT_DB = -24;

/** Gives the samples of a stroke: new ones, or one of those kept for its drum. */
function strikesFor({ sampleRateHz, random, strikesPerDrum }: RenderOptions): (stroke: SoundingStroke) => Float32Array {
  if (strikesPerDrum === undefined) return ({ surface, levelDb }) => strike(voices[voiceOf(surface)], { sampleRateHz, levelDb, random });
  const kept = new Map<string, { readonly strikes: Float32Array[]; next: number }>();
  return ({ surface, levelDb }) => {
    const voice = voiceOf(surface);
    const drum = kept.get(voice) ?? { strikes: [], next: 0 };
    kept.set(voice, drum);
    const turn = drum.next++ % strikesPerDrum;
    drum.strikes[turn] ??= strike(voices[voice], { sampleRateHz, levelDb: KEPT_DB, random });
    const gain = amplitudeOfDb(levelDb - KEPT_DB);
    return drum.strikes[turn].map((sample) => sample * gain);
  };
}

/** Adds `part` to `sound` from frame `at` on; what lies outside is left out. */
export function mixIn(sound: Float32Array, part: Float32Array, at: number): void {
  const end = Math.min(part.length, sound.length - at);
  for (let i = Math.max(0, -at); i < end; i++) sound[at + i]! += part[i]!;
}

/** The same sound, turned down as a whole when its true peak exceeds −1 dB of full scale. */
export function underCeiling(sound: Float32Array): Float32Array {
  const ceiling = amplitudeOfDb(CEILING_DB);
  const peak = truePeak(sound);
  return peak > ceiling ? sound.map((sample) => (sample * ceiling) / peak) : sound;
}
