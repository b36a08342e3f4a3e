/** Figures per place of the sticking and per pair of neighbouring strokes of one limb. */

import { median, robustSpread } from '../quantiles.ts';
import { msOfSec } from '../units.ts';
import type { EventCycle } from './events.ts';
import type { ExtraStroke, MeasuredStroke, Pair, Place } from './measurement.ts';
import { GRID_STROKES } from './parameters.ts';
import { mean, medianInterval } from './statistics.ts';
import { sureOnes } from './sure.ts';

/** Figures of every main stroke of the cycle, in order of index. */
export function placesOf(strokes: readonly MeasuredStroke[], cycle: EventCycle): Place[] {
  return cycle.events
    .flatMap((event) => event.strokes)
    .sort((a, b) => a.index - b.index)
    .map(({ index, limb }) => {
      const here = strokes.filter((stroke) => stroke.index === index);
      const timed = sureOnes(
        here.filter((stroke) => stroke.status === 'played'),
        (stroke) => stroke.confidence,
      );
      const errors = timed.values.map((stroke) => stroke.errorMs!);
      const levels = here.flatMap((stroke) => (stroke.levelDb === null ? [] : [stroke.levelDb]));
      const interval = timed.unsure ? null : medianInterval(errors);
      return {
        index,
        limb,
        count: errors.length,
        unsure: timed.unsure,
        biasMs: errors.length > 0 ? median(errors) * (timed.unsure ? trustIn(timed.values) : 1) : null,
        biasLowMs: interval?.low ?? null,
        biasHighMs: interval?.high ?? null,
        spreadMs: errors.length > 2 ? robustSpread(errors) : null,
        levelDb: levels.length > 0 ? mean(levels) : null,
        missed: here.filter((stroke) => stroke.status === 'missed').length,
        notAudible: here.filter((stroke) => stroke.status === 'notAudible').length,
      };
    });
}

/** Strokes whose times are not sure are mostly echoes and neighbours: the fewer and the less sure, the nearer to the grid their place is told, as if one stroke on the grid stood beside them. */
function trustIn(strokes: readonly MeasuredStroke[]): number {
  const weight = strokes.reduce((sum, { confidence }) => sum + confidence, 0);
  return weight / (weight + GRID_STROKES);
}

/** Two neighbouring main strokes of one limb; the second may be in the next cycle. */
interface Neighbours {
  readonly first: number;
  readonly second: number;
  readonly limb: Pair['limb'];
  readonly wraps: boolean;
}

/** How much longer than the shortest space a written gap may be and still be a double. Assumption. */
const DOUBLE_SPACE = 1.5;

/** Pairs in order of their first stroke. A gap far longer than the shortest of the cycle is no pair. */
export function pairsOf(strokes: readonly MeasuredStroke[], extra: readonly ExtraStroke[], cycle: EventCycle): Pair[] {
  const byKey = new Map(strokes.map((stroke) => [keyOf(stroke.cycle, stroke.index), stroke]));
  return neighboursOf(cycle).map(({ first, second, limb, wraps }) => {
    const couples = strokes.flatMap((a) => {
      const b = a.index === first ? byKey.get(keyOf(a.cycle + (wraps ? 1 : 0), second)) : undefined;
      return b && a.status === 'played' && b.status === 'played' ? [{ a, b }] : [];
    });
    const { values: timed, unsure } = sureOnes(couples, ({ a, b }) => Math.min(a.confidence, b.confidence));
    const gaps = timed.map(({ a, b }) => msOfSec(b.playedSec! - a.playedSec!));
    const shares = timed.map(({ a, b }) => (b.playedSec! - a.playedSec!) / (b.expectedSec - a.expectedSec));
    const interval = unsure ? null : medianInterval(shares);
    const steps = couples.map(({ a, b }) => b.levelDb! - a.levelDb!);
    return {
      first,
      second,
      limb,
      gapMs: gaps.length > 0 ? median(gaps) : null,
      gapShare: shares.length > 0 ? median(shares) : null,
      gapLow: interval?.low ?? null,
      gapHigh: interval?.high ?? null,
      levelStepDb: steps.length > 0 ? mean(steps) : null,
      extraBounces: couples.reduce((sum, couple) => sum + bouncesOf(couple, extra), 0),
      unsure,
    };
  });
}

const keyOf = (cycle: number, index: number): string => `${cycle}:${index}`;

function neighboursOf({ events, lengthBeats }: EventCycle): Neighbours[] {
  const shortest = Math.min(...events.map((event) => event.spaceBeats));
  return events
    .flatMap((event, i) => {
      const wraps = i === events.length - 1;
      const next = events[wraps ? 0 : i + 1]!;
      const gapBeats = next.beat - event.beat + (wraps ? lengthBeats : 0);
      if (gapBeats > DOUBLE_SPACE * shortest) return [];
      return event.strokes.flatMap((a) =>
        next.strokes.flatMap((b) => (a.limb === b.limb && a.index !== b.index ? [{ first: a.index, second: b.index, limb: a.limb, wraps }] : [])),
      );
    })
    .sort((a, b) => a.first - b.first);
}

/** Extra onsets after the second stroke, no further away than the pair's own gap. */
function bouncesOf({ a, b }: { a: MeasuredStroke; b: MeasuredStroke }, extra: readonly ExtraStroke[]): number {
  const reachSec = 1.2 * (b.playedSec! - a.playedSec!);
  return extra.filter(({ timeSec }) => timeSec > b.playedSec! && timeSec < b.playedSec! + reachSec).length;
}
