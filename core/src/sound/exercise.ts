/** An exercise as it is written, at a tempo, as sound: for listening, never for judging. */
import { type ExpectedCycle, type ExpectedStroke, graceLeadsSec } from '../exercise/index.ts';
import type { Random } from '../random.ts';
import { toNumber } from '../rational.ts';
import { beatSec, frameOfSec } from '../units.ts';
import { renderClick } from './click.ts';
import type { ClickSound } from './clickname.ts';
import {
  ACCENT_DB,
  BUZZ_BOUNCES,
  BUZZ_GAP_SEC,
  BUZZ_LOSS_DB,
  GHOST_DB,
  GRACE_DB,
  LOOP_LEAD_SEC,
  PLAIN_LEVEL_DB,
  STRIKES_PER_DRUM,
} from './parameters.ts';
import { mixIn, renderStrokes, type SoundingStroke, underCeiling } from './render.ts';

export interface ExerciseSoundOptions {
  readonly tempoBpm: number;
  readonly cycles: number;
  readonly sampleRateHz: number;
  readonly random: Random;
  /** Beats of a bar when the click is to sound with it. */
  readonly clickBeats?: number;
  /** What that click sounds like; unless said, the usual sound. */
  readonly clickSound?: ClickSound;
  /** Quiet before the first beat, s, so that small notes before it are heard; default 0, which cuts them off. */
  readonly leadSec?: number;
}

/** How loud a stroke is written, RMS over 20 ms, dB of full scale. */
export const writtenLevelDb = ({ accent, ghost }: Pick<ExpectedStroke, 'accent' | 'ghost'>): number =>
  PLAIN_LEVEL_DB + (accent ? ACCENT_DB : 0) + (ghost ? GHOST_DB : 0);

/** A sound that belongs to a stroke: when after it (before it, below zero) and how much louder. */
export interface Companion {
  readonly offsetSec: number;
  readonly addDb: number;
}

/** The graces before a stroke, first to last: the one of a flam, the two of a drag. */
export const gracesOf = (graceCount: number): Companion[] => graceLeadsSec(graceCount).map((sec) => ({ offsetSec: -sec, addDb: GRACE_DB }));

/** The bounces after a stroke that buzzes, none after another. */
export const bouncesOf = (buzz: boolean): Companion[] =>
  Array.from({ length: buzz ? BUZZ_BOUNCES : 0 }, (_, i) => ({ offsetSec: (i + 1) * BUZZ_GAP_SEC, addDb: -(i + 1) * BUZZ_LOSS_DB }));

/**
 * @param cycle the expected strokes.
 * @returns mono samples from the first beat, or `leadSec` before it, to a second after the last cycle.
 */
export function renderExercise(cycle: ExpectedCycle, options: ExerciseSoundOptions): Float32Array {
  const { tempoBpm, cycles, sampleRateHz, random, clickBeats, clickSound, leadSec = 0 } = options;
  const lengthBeats = toNumber(cycle.lengthBeats);
  const durationSec = leadSec + cycles * lengthBeats * beatSec(tempoBpm) + 1;
  const secOf = (beat: number) => leadSec + beat * beatSec(tempoBpm);
  const strokes = Array.from({ length: cycles }, (_, i) =>
    cycle.strokes.flatMap((stroke) => sounding(stroke, secOf(i * lengthBeats + toNumber(stroke.beat)))),
  ).flat();
  const sound = renderStrokes(strokes, { sampleRateHz, durationSec, random, strikesPerDrum: STRIKES_PER_DRUM });
  if (clickBeats === undefined) return sound;
  for (let beat = 0; beat < cycles * lengthBeats; beat++) {
    const click = renderClick(beat % clickBeats === 0 ? 'bar' : 'beat', sampleRateHz, clickSound);
    mixIn(sound, click, frameOfSec(secOf(beat), sampleRateHz));
  }
  return underCeiling(sound);
}

/**
 * The cycles as a loop that can be played over and over without a seam: what rings on after the end stands at the beginning, small notes before the
 * first beat stand at the end.
 * @param options as of `renderExercise`; `leadSec` changes nothing.
 * @returns mono samples of exactly the cycles' length, rounded to a frame.
 */
export function renderLoop(cycle: ExpectedCycle, options: ExerciseSoundOptions): Float32Array {
  const { tempoBpm, cycles, sampleRateHz } = options;
  const once = renderExercise(cycle, { ...options, leadSec: LOOP_LEAD_SEC });
  const loop = new Float32Array(frameOfSec(cycles * toNumber(cycle.lengthBeats) * beatSec(tempoBpm), sampleRateHz));
  const lead = frameOfSec(LOOP_LEAD_SEC, sampleRateHz);
  for (let i = 0; i < once.length; i++) loop[(i - lead + loop.length) % loop.length]! += once[i]!;
  return underCeiling(loop);
}

/** A written stroke with its graces and bounces. */
function sounding(stroke: ExpectedStroke, timeSec: number): SoundingStroke[] {
  const levelDb = writtenLevelDb(stroke);
  const main = { offsetSec: 0, addDb: 0 };
  return [...gracesOf(stroke.graceCount), main, ...bouncesOf(stroke.buzz)].map(({ offsetSec, addDb }) => ({
    timeSec: timeSec + offsetSec,
    surface: stroke.surface,
    levelDb: levelDb + addDb,
  }));
}
