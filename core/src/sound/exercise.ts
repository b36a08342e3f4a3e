/** An exercise as it is written, at a tempo, as sound: for listening, never for judging. */
import type { ExpectedCycle, ExpectedStroke } from '../exercise/index.ts';
import type { Random } from '../random.ts';
import { toNumber } from '../rational.ts';
import { beatSec, frameOfSec } from '../units.ts';
import { renderClick } from './click.ts';
import { ACCENT_DB, BUZZ_BOUNCES, BUZZ_GAP_SEC, BUZZ_LOSS_DB, DRAG_SEC, FLAM_SEC, GHOST_DB, GRACE_DB, PLAIN_LEVEL_DB } from './parameters.ts';
import { mixIn, renderStrokes, type SoundingStroke, underCeiling } from './render.ts';

export interface ExerciseSoundOptions {
  readonly tempoBpm: number;
  readonly cycles: number;
  readonly sampleRateHz: number;
  readonly random: Random;
  /** Beats of a bar when the click is to sound with it. */
  readonly clickBeats?: number;
}

/** How loud a stroke is written, RMS over 20 ms, dB of full scale. */
export const writtenLevelDb = ({ accent, ghost }: Pick<ExpectedStroke, 'accent' | 'ghost'>): number =>
  PLAIN_LEVEL_DB + (accent ? ACCENT_DB : 0) + (ghost ? GHOST_DB : 0);

/** Onsets of the graces of a stroke, in seconds before it, first to last. */
export const graceLeadsSec = (graceCount: number): number[] => {
  const first = graceCount > 1 ? DRAG_SEC : FLAM_SEC;
  return Array.from({ length: graceCount }, (_, i) => (first * (graceCount - i)) / graceCount);
};

/**
 * @param cycle the expected strokes.
 * @returns mono samples from the first beat to a second after the last cycle.
 */
export function renderExercise(cycle: ExpectedCycle, options: ExerciseSoundOptions): Float32Array {
  const { tempoBpm, cycles, sampleRateHz, random, clickBeats } = options;
  const lengthBeats = toNumber(cycle.lengthBeats);
  const durationSec = cycles * lengthBeats * beatSec(tempoBpm) + 1;
  const strokes = Array.from({ length: cycles }, (_, i) => cycle.strokes.flatMap((stroke) => sounding(stroke, i * lengthBeats, tempoBpm))).flat();
  const sound = renderStrokes(strokes, { sampleRateHz, durationSec, random });
  if (clickBeats === undefined) return sound;
  for (let beat = 0; beat < cycles * lengthBeats; beat++) {
    mixIn(sound, renderClick(beat % clickBeats === 0 ? 'bar' : 'beat', sampleRateHz), frameOfSec(beat * beatSec(tempoBpm), sampleRateHz));
  }
  return underCeiling(sound);
}

/** A written stroke with its graces and bounces. */
function sounding(stroke: ExpectedStroke, fromBeat: number, tempoBpm: number): SoundingStroke[] {
  const timeSec = (fromBeat + toNumber(stroke.beat)) * beatSec(tempoBpm);
  const levelDb = writtenLevelDb(stroke);
  const at = (offsetSec: number, addDb: number) => ({ timeSec: timeSec + offsetSec, surface: stroke.surface, levelDb: levelDb + addDb });
  const graces = graceLeadsSec(stroke.graceCount).map((leadSec) => at(-leadSec, GRACE_DB));
  const bounces = stroke.buzz ? Array.from({ length: BUZZ_BOUNCES }, (_, i) => at((i + 1) * BUZZ_GAP_SEC, -(i + 1) * BUZZ_LOSS_DB)) : [];
  return [...graces, at(0, 0), ...bounces];
}
