/** Counts stick clicks that are meant: evenly spaced, with quiet before and after. What is played is no such count. */

import { median } from '../quantiles.ts';
import { bpmOfBeats, frameOfSec, secOfFrames, secOfMs } from '../units.ts';
import { createKnocks, type Knock, type KnockState, stepKnocks } from './knocks.ts';
import { COUNT, KNOCK } from './parameters.ts';

/** Some stick clicks in a row, over and done. */
export interface StickCount {
  readonly count: number;
  /** Frame of the first and of the last. */
  readonly fromFrame: number;
  readonly toFrame: number;
  /** Their tempo, clicks a minute. */
  readonly tempoBpm: number;
}

/** Clicks counted so far. */
export interface CountState {
  readonly sampleRateHz: number;
  readonly clicks: readonly Knock[];
  /** Frame of the last knock of any kind. */
  readonly lastFrame: number;
}

const newCount = (sampleRateHz: number): CountState => ({ sampleRateHz, clicks: [], lastFrame: Number.NEGATIVE_INFINITY });

/**
 * Goes on counting.
 * @param knocks those heard since the last step, in order.
 * @param nowFrame up to which every knock is known.
 * @returns the count that is over by now, if one is. One alone is never a count.
 */
function stepCount(
  state: CountState,
  knocks: readonly Knock[],
  nowFrame: number,
): { readonly state: CountState; readonly counted: StickCount | null } {
  const now = knocks.reduce(counting, state);
  if (now.clicks.length === 0 || nowFrame < now.lastFrame + quietAfter(now)) return { state: now, counted: null };
  return { state: { ...now, clicks: [] }, counted: now.clicks.length < 2 || now.clicks.length > COUNT.most ? null : countOf(now) };
}

/** A knock that does not fit ends the count without a word; only after quiet may another begin. */
function counting(state: CountState, knock: Knock): CountState {
  const quiet = knock.frame - state.lastFrame >= frameOfSec(COUNT.quietBeforeSec, state.sampleRateHz);
  const after = { ...state, lastFrame: knock.frame };
  if (!knock.sticks) return { ...after, clicks: [] };
  if (state.clicks.length === 0) return { ...after, clicks: quiet ? [knock] : [] };
  const clicks = [...state.clicks, knock];
  return { ...after, clicks: fits(clicks, state.sampleRateHz) ? clicks : [] };
}

function fits(clicks: readonly Knock[], sampleRateHz: number): boolean {
  const gapsSec = gapsOf(clicks, sampleRateHz);
  const usual = median(gapsSec);
  const loudest = Math.max(...clicks.map(({ levelDb }) => levelDb));
  return (
    gapsSec.every((sec) => sec >= COUNT.shortestSec && sec <= COUNT.longestSec && Math.abs(sec / usual - 1) <= COUNT.unevenShare) &&
    clicks.every(({ levelDb }) => levelDb >= loudest - COUNT.softerDb)
  );
}

const gapsOf = (clicks: readonly Knock[], sampleRateHz: number): readonly number[] =>
  clicks.slice(1).map(({ frame }, i) => secOfFrames(frame - clicks[i]!.frame, sampleRateHz));

function quietAfter({ clicks, sampleRateHz }: CountState): number {
  const usual = clicks.length < 2 ? COUNT.longestSec : median(gapsOf(clicks, sampleRateHz));
  return frameOfSec(Math.max(COUNT.quietAfterSec, COUNT.quietAfterShare * usual), sampleRateHz);
}

function countOf({ clicks, sampleRateHz }: CountState): StickCount {
  const [first, last] = [clicks[0]!, clicks.at(-1)!];
  const tempoBpm = bpmOfBeats(clicks.length - 1, secOfFrames(last.frame - first.frame, sampleRateHz));
  return { count: clicks.length, fromFrame: first.frame, toFrame: last.frame, tempoBpm };
}

/** Hears stick clicks in sound as it comes; `stepSticks` changes it. */
export interface SticksState {
  readonly knocks: KnockState;
  count: CountState;
}

export const createSticks = (sampleRateHz: number): SticksState => ({ knocks: createKnocks(sampleRateHz), count: newCount(sampleRateHz) });

/** The next stretch of sound, which begins at `frame`; gives the count that it ends, if it ends one. */
export function stepSticks(state: SticksState, samples: Float32Array, frame: number): StickCount | null {
  const knocks = stepKnocks(state.knocks, samples, frame);
  const untold = frameOfSec(secOfMs(KNOCK.toldHops), state.knocks.sampleRateHz);
  const { state: count, counted } = stepCount(state.count, knocks, frame + samples.length - untold);
  state.count = count;
  return counted;
}
