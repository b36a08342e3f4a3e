/** What stands out at each place and pair of a measurement, before it is put into findings. */
import type { ExpectedCycle, ExpectedStroke } from '../exercise/index.ts';
import { eventsOf, type MeasuredStroke, type Measurement, mean, median, type Pair, type Place, standardDeviation } from '../measurement/index.ts';
import { audibleMs } from './audible.ts';
import { BOUNCE_SHARE, CLEAR_DB, MISSES } from './parameters.ts';

/** A place with what is off there; `excess` is 0 when nothing is, and grows with how far beyond what is heard it lies. */
export interface PlaceView {
  readonly place: Place;
  readonly time: 'early' | 'late' | 'even';
  readonly volume: 'softer' | 'louder' | 'even';
  readonly missing: boolean;
  readonly levelStepDb: number;
  readonly excess: number;
}

/** A pair with what is off in it. */
export interface PairView {
  readonly pair: Pair;
  readonly gap: 'close' | 'wide' | 'even';
  readonly step: 'softer' | 'louder' | 'even';
  readonly bouncing: boolean;
  readonly count: number;
  readonly excess: number;
}

/** Milliseconds to the nearest neighbour of each main stroke, by index, at the tempo heard. */
export function spacesMs({ trackedBpm }: Measurement, cycle: ExpectedCycle): number[] {
  const spaces: number[] = [];
  for (const event of eventsOf(cycle).events) {
    for (const stroke of event.strokes) spaces[stroke.index] = (event.spaceBeats * 60000) / trackedBpm;
  }
  return spaces;
}

/** Every place of the measurement, looked at. */
export function viewPlaces(measurement: Measurement, cycle: ExpectedCycle): PlaceView[] {
  const spaces = spacesMs(measurement, cycle);
  const uneven = new Set(viewPairs(measurement, cycle).flatMap(({ pair, step }) => (step === 'even' ? [] : [pair.second])));
  return measurement.places.map((place) => {
    const time = timeOf(place, audibleMs(spaces[place.index]!));
    const { volume, levelStepDb } = volumeOf(place, { measurement, cycle, uneven });
    const asked = measurement.strokes.filter(({ index }) => index === place.index).length;
    const missing = place.missed >= MISSES.count && place.missed >= MISSES.share * asked;
    const excess =
      (time === 'even' ? 0 : Math.abs(place.biasMs!) / audibleMs(spaces[place.index]!)) +
      (volume === 'even' ? 0 : Math.abs(levelStepDb) / CLEAR_DB) +
      (missing ? (10 * place.missed) / asked : 0);
    return { place, time, volume, missing, levelStepDb, excess };
  });
}

/** Early or late only when the whole interval lies to one side, and far enough to be heard. */
function timeOf({ biasMs, biasLowMs, biasHighMs, unsure }: Place, heardMs: number): PlaceView['time'] {
  if (unsure || biasMs === null || biasLowMs === null || biasHighMs === null || Math.abs(biasMs) < heardMs) return 'even';
  if (biasHighMs < 0) return 'early';
  return biasLowMs > 0 ? 'late' : 'even';
}

interface Surroundings {
  readonly measurement: Measurement;
  readonly cycle: ExpectedCycle;
  /** Second strokes of pairs that are uneven in volume: told with their pair, and no measure for others. */
  readonly uneven: ReadonlySet<number>;
}

/** Volume against the other strokes of the drum that are written alike. Of two, only the softer is told. */
function volumeOf(place: Place, { measurement, cycle, uneven }: Surroundings): Pick<PlaceView, 'volume' | 'levelStepDb'> {
  const { places, pairs, strokes } = measurement;
  const alike = alikeOf(place.index, cycle);
  for (const index of uneven) alike.delete(index);
  for (const index of kickPartners(place, pairs)) alike.delete(index);
  const others = places.flatMap((other) => (alike.has(other.index) && other.levelDb !== null ? [other.levelDb] : []));
  if (place.levelDb === null || others.length === 0) return { volume: 'even', levelStepDb: 0 };
  const levelStepDb = place.levelDb - median(others);
  const clear = Math.abs(levelStepDb) >= CLEAR_DB && Math.abs(levelStepDb) > 2 * standardErrorDb(levelsAt(place.index, strokes));
  if (!clear || (levelStepDb > 0 && others.length < 2)) return { volume: 'even', levelStepDb };
  return { volume: levelStepDb < 0 ? 'softer' : 'louder', levelStepDb };
}

/** Kicks that make a pair with this one: which of the two is louder is told of the pair, and leaning into the second is no fault. */
const kickPartners = ({ index, limb }: Place, pairs: readonly Pair[]): number[] =>
  limb === 'K' ? pairs.filter(({ first, second }) => first === index || second === index).flatMap(({ first, second }) => [first, second]) : [];

/** Other strokes of the same drum that are written as loud: both accented, both ghosts, or neither. */
function alikeOf(index: number, cycle: ExpectedCycle): Set<number> {
  const written = cycle.strokes.find((stroke) => stroke.index === index)!;
  return new Set(cycle.strokes.flatMap((other) => (other.index !== index && writtenAlike(written, other) ? [other.index] : [])));
}

/** Of one drum and written as loud. */
export const writtenAlike = (a: ExpectedStroke, b: ExpectedStroke): boolean =>
  a.surface === b.surface && a.accent === b.accent && a.ghost === b.ghost;

const levelsAt = (index: number, strokes: readonly MeasuredStroke[]): number[] =>
  strokes.flatMap((stroke) => (stroke.index === index && stroke.levelDb !== null ? [stroke.levelDb] : []));

const standardErrorDb = (levels: readonly number[]): number =>
  levels.length < 2 ? Number.POSITIVE_INFINITY : standardDeviation(levels) / Math.sqrt(levels.length);

/** Every pair of the measurement, looked at. */
export function viewPairs(measurement: Measurement, cycle: ExpectedCycle): PairView[] {
  return measurement.pairs.map((pair) => {
    const steps = stepsDb(pair, measurement.strokes);
    const gap = gapOf(pair);
    const step = stepOf(pair, steps, cycle);
    const bouncing = pair.extraBounces >= 2 && pair.extraBounces >= BOUNCE_SHARE * steps.length;
    const excess =
      (gap === 'even' ? 0 : gapOffMs(pair) / audibleMs(writtenGapMs(pair))) +
      (step === 'even' ? 0 : Math.abs(pair.levelStepDb!) / CLEAR_DB) +
      (bouncing ? (2 * pair.extraBounces) / steps.length : 0);
    return { pair, gap, step, bouncing, count: steps.length, excess };
  });
}

const writtenGapMs = ({ gapMs, gapShare }: Pair): number => gapMs! / gapShare!;
const gapOffMs = (pair: Pair): number => Math.abs(pair.gapMs! - writtenGapMs(pair));

function gapOf(pair: Pair): PairView['gap'] {
  const { gapMs, gapShare, gapLow, gapHigh, unsure } = pair;
  if (unsure || gapMs === null || gapShare === null || gapLow === null || gapHigh === null) return 'even';
  if (gapOffMs(pair) < audibleMs(writtenGapMs(pair))) return 'even';
  if (gapHigh < 1) return 'close';
  return gapLow > 1 ? 'wide' : 'even';
}

/** Step in volume within each pair that was played, in order; the second may belong to the next cycle. */
function stepsDb({ first, second }: Pair, strokes: readonly MeasuredStroke[]): number[] {
  const levels = new Map(strokes.map((stroke) => [`${stroke.cycle}:${stroke.index}`, stroke.levelDb]));
  return strokes.flatMap((stroke) => {
    if (stroke.index !== first || stroke.levelDb === null) return [];
    const next = levels.get(`${stroke.cycle + (second < first ? 1 : 0)}:${second}`) ?? null;
    return next === null ? [] : [next - stroke.levelDb];
  });
}

/** A second kick that is louder leans into the beat: in recorded playing 78 % of kick pairs do, so it is no fault. @source [Gillick2019] */
function stepOf({ first, second, limb }: Pair, steps: readonly number[], cycle: ExpectedCycle): PairView['step'] {
  const [a, b] = [first, second].map((index) => cycle.strokes.find((stroke) => stroke.index === index)!);
  if (steps.length < 2 || !writtenAlike(a!, b!)) return 'even';
  const step = mean(steps);
  if (Math.abs(step) < CLEAR_DB || Math.abs(step) < 2 * standardErrorDb(steps)) return 'even';
  if (step < 0) return 'softer';
  return limb === 'K' ? 'even' : 'louder';
}
