/** What is usual at each place of the cycle, learnt from the strokes found there so far: where, how loud, what kind of drum. */

import { median, robustSpread } from '../quantiles.ts';
import type { Candidate, DrumKind, DrumOdds } from '../stroke/index.ts';
import { secOfMs } from '../units.ts';
import { secOfBeat, type TimeMap } from './click.ts';
import { beatOf, type EventCycle, placeOf } from './events.ts';
import { SPREAD_MS } from './parameters.ts';
import { sureOnes } from './sure.ts';
import type { Anchor } from './tracking.ts';

export interface PlaceModel {
  /** Strokes found there. */
  readonly count: number;
  /** Median of played − grid, and how far single strokes lie from it; bias 0 where nothing was found. */
  readonly biasSec: number;
  readonly spreadSec: number;
  /** Null while fewer than four strokes were found there. */
  readonly volume: { readonly medianDb: number; readonly spreadDb: number } | null;
  /** Square roots of the mean odds per kind of drum; null while fewer than four strokes were found. */
  readonly drumRoots: DrumRoots | null;
}

const KINDS: readonly DrumKind[] = ['kick', 'tom', 'snare', 'pad', 'cymbal'];
const ENOUGH = 4;

/** A model per event of the cycle. Places with too few strokes get a neutral one: no bias, wide spread. */
export function placeModels(candidates: readonly Candidate[], cycle: EventCycle, found: { map: TimeMap; anchors: readonly Anchor[] }): PlaceModel[] {
  const byPlace: Anchor[][] = cycle.events.map(() => []);
  for (const anchor of found.anchors) byPlace[placeOf(cycle, anchor.event)]!.push(anchor);
  return byPlace.map((anchors) => {
    const timed = sureOnes(anchors, ({ candidate }) => candidates[candidate]!.confidence).values;
    const offsets = timed.map(({ candidate, event }) => candidates[candidate]!.timeSec - secOfBeat(found.map, beatOf(cycle, event)));
    return { count: anchors.length, ...timeModel(offsets), ...soundModel(anchors.map(({ candidate }) => candidates[candidate]!)) };
  });
}

function timeModel(offsetsSec: readonly number[]): Pick<PlaceModel, 'biasSec' | 'spreadSec'> {
  const [lowest, highest] = [secOfMs(SPREAD_MS.low), secOfMs(SPREAD_MS.high)];
  if (offsetsSec.length === 0) return { biasSec: 0, spreadSec: highest };
  const spreadSec = offsetsSec.length < ENOUGH ? highest : Math.min(highest, Math.max(lowest, robustSpread(offsetsSec)));
  return { biasSec: median(offsetsSec), spreadSec };
}

function soundModel(found: readonly Candidate[]): Pick<PlaceModel, 'volume' | 'drumRoots'> {
  if (found.length < ENOUGH) return { volume: null, drumRoots: null };
  const volumes = found.map((candidate) => candidate.volumeDb);
  return {
    volume: { medianDb: median(volumes), spreadDb: Math.max(3, robustSpread(volumes)) },
    drumRoots: meanRoots(found.map((candidate) => candidate.drumOdds)),
  };
}

/** A drum's odds as square roots, so that likeness is a sum of products. */
type DrumRoots = DrumOdds;

function meanRoots(odds: readonly DrumOdds[]): DrumRoots {
  const sum = { kick: 0, tom: 0, snare: 0, pad: 0, cymbal: 0 };
  for (const one of odds) for (const kind of KINDS) sum[kind] += one[kind];
  for (const kind of KINDS) sum[kind] = Math.sqrt(sum[kind] / odds.length);
  return sum;
}

/** How alike a drum sounds to what is usual at a place, 0 to 1: the overlap of their odds. @source [Bhattacharyya1943] */
export function likeness(usual: DrumRoots, odds: DrumOdds): number {
  let sum = 0;
  for (const kind of KINDS) sum += usual[kind] * Math.sqrt(odds[kind]);
  return sum;
}
