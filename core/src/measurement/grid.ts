/** The grid of a take: when each beat was, from the click when it is known and from the strokes themselves otherwise. */

import { median } from '../quantiles.ts';
import type { Candidate } from '../stroke/index.ts';
import { beatOfSec, countedFrom, laterBy, secOfBeat, type TimeMap } from './click.ts';
import { beatOf, type EventCycle, placeOf } from './events.ts';
import { ROUNDS, TIMING_CONFIDENCE } from './parameters.ts';
import { type PlaceModel, placeModels } from './placemodel.ts';
import { weightedMedian } from './statistics.ts';
import { fitCurve } from './tempocurve.ts';
import type { Anchor } from './tracking.ts';

export interface Grid {
  /** Beat 0 is the start of cycle 0. */
  readonly map: TimeMap;
  readonly models: readonly PlaceModel[];
  /** What was taken off the click so that the places lie around 0; null without a click. */
  readonly offsetSec: number | null;
}

/**
 * Grid and place models for strokes already given to events.
 * @param found.anchors at least two, at different beats.
 * @param found.click beats counted from its first click, or null.
 * @param found.before an earlier grid of the same take to start from, or null.
 */
export function gridOf(
  candidates: readonly Candidate[],
  cycle: EventCycle,
  found: { anchors: readonly Anchor[]; click: TimeMap | null; before: Grid | null },
): Grid {
  const sure = found.anchors.filter(({ candidate }) => candidates[candidate]!.confidence >= TIMING_CONFIDENCE);
  const anchors = spansBeats(sure) ? sure : found.anchors;
  const map = found.click
    ? clickGrid(candidates, cycle, { anchors, click: found.click })
    : curveGrid(candidates, cycle, { anchors, before: found.before });
  const models = placeModels(candidates, cycle, { map, anchors: found.anchors });
  const constantSec = weightedMedian(models.map(({ biasSec, count }) => ({ value: biasSec, weight: count })));
  return {
    map: laterBy(map, constantSec),
    models: models.map((model) => ({ ...model, biasSec: model.count > 0 ? model.biasSec - constantSec : 0 })),
    offsetSec: found.click ? constantSec : null,
  };
}

const spansBeats = (anchors: readonly Anchor[]): boolean => anchors.length >= 4 && anchors[0]!.event !== anchors.at(-1)!.event;

/** The click, counted so that cycle 0 starts on the beat nearest to where it was begun. */
function clickGrid(candidates: readonly Candidate[], cycle: EventCycle, { anchors, click }: { anchors: readonly Anchor[]; click: TimeMap }): TimeMap {
  const starts = anchors.map(({ candidate, event }) => beatOfSec(click, candidates[candidate]!.timeSec) - beatOf(cycle, event));
  return countedFrom(click, -Math.round(median(starts)));
}

/** A tempo curve through the strokes, the medians of their places taken away: the two are found in turn. */
function curveGrid(candidates: readonly Candidate[], cycle: EventCycle, from: { anchors: readonly Anchor[]; before: Grid | null }): TimeMap {
  const { anchors, before } = from;
  const beats = Float64Array.from(anchors, ({ event }) => beatOf(cycle, event));
  const biases = new Float64Array(cycle.events.length);
  let map = before?.map ?? fitCurve({ beats, secs: Float64Array.from(anchors, ({ candidate }) => candidates[candidate]!.timeSec) });
  for (let round = before ? ROUNDS - 1 : 0; round < ROUNDS; round++) {
    const offsets: number[][] = cycle.events.map(() => []);
    anchors.forEach(({ candidate, event }, i) => {
      offsets[placeOf(cycle, event)]!.push(candidates[candidate]!.timeSec - secOfBeat(map, beats[i]!));
    });
    offsets.forEach((of, place) => {
      biases[place] = of.length > 0 ? median(of) : 0;
    });
    const secs = Float64Array.from(anchors, ({ candidate, event }) => candidates[candidate]!.timeSec - biases[placeOf(cycle, event)]!);
    map = fitCurve({ beats, secs });
  }
  return map;
}
