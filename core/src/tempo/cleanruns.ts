/** Clean runs: eight main strokes in a row that are all there, in time, and of the volume wanted. */
import type { ExpectedCycle } from '../exercise/index.ts';
import { audibleMs, meantShape, type Shape, spacesMs, writtenAlike } from '../finding/index.ts';
import type { MeasuredStroke, Measurement, Place } from '../measurement/index.ts';
import { median } from '../quantiles.ts';
import { msOfSec } from '../units.ts';
import { RUN_STROKES, TOLERANCE_FACTORS, VOLUME_DB } from './parameters.ts';

export type Tolerance = keyof typeof TOLERANCE_FACTORS;

export interface CleanRuns {
  /** Runs that could be judged, and how many of them were clean. */
  readonly runs: number;
  readonly clean: number;
  /** Runs left out because a stroke in them could not be heard: neither clean nor not. */
  readonly untold: number;
  /** Places whose mean volume is off, by index; while there are any, no run is clean. */
  readonly offVolume: readonly number[];
}

export interface CleanOptions {
  readonly cycle: ExpectedCycle;
  /** Default medium. */
  readonly tolerance?: Tolerance;
  /** Volume wanted at each place against the others of its drum and dynamics, dB, by index. Default even. */
  readonly shapeDb?: readonly number[];
  /** What is wanted beside evenness, when the amounts are not known: as much of it as was played. Default even. */
  readonly shapes?: readonly Shape[];
}

/**
 * Counts the clean runs of a measurement.
 * A run is eight main strokes in a row: short cycles are joined, long ones cut; what is left at the end of a row is dropped.
 * A stroke whose time is not sure counts as there and is not judged in time.
 */
export function cleanRuns(measurement: Measurement, { cycle, tolerance = 'medium', shapeDb, shapes = [] }: CleanOptions): CleanRuns {
  const meant = shapes.length > 0 ? meantShape(measurement, cycle, shapes) : null;
  const allowedMs = spacesMs(measurement, cycle).map((space) => TOLERANCE_FACTORS[tolerance] * audibleMs(space));
  const offVolume = offVolumeOf(measurement, cycle, shapeDb ?? meant?.volumeDb ?? []);
  const runs = runsOf(measurement.strokes, cycle.strokes.length);
  const elsewhere = heardElsewhere(measurement, spacesMs(measurement, cycle));
  const told = runs.filter((run) => run.every((stroke) => stroke.status !== 'notAudible' || elsewhere.has(stroke)));
  const inTime = told.filter((run) => run.every((stroke) => isThereInTime(stroke, allowedMs[stroke.index]!, meant?.timeMs[stroke.index] ?? 0)));
  return { runs: told.length, clean: offVolume.length > 0 ? 0 : inTime.length, untold: runs.length - told.length, offVolume };
}

/**
 * Strokes of which nothing was heard where they belong, while a stroke that belongs nowhere was heard between their neighbours: they came, out of
 * place. At fast sixteenths half a space is less than what an uneven hand strays.
 */
function heardElsewhere({ strokes, extra }: Measurement, spaces: readonly number[]): ReadonlySet<MeasuredStroke> {
  const free = new Set(extra);
  const found = new Set<MeasuredStroke>();
  for (const stroke of strokes.filter(({ status }) => status === 'notAudible')) {
    const away = ({ timeSec }: { readonly timeSec: number }) => msOfSec(Math.abs(timeSec - stroke.expectedSec));
    const [nearest] = [...free].filter((one) => away(one) < spaces[stroke.index]!).sort((a, b) => away(a) - away(b));
    if (!nearest) continue;
    free.delete(nearest);
    found.add(stroke);
  }
  return found;
}

/** The strokes eight by eight, begun anew after a cycle that was not played. */
function runsOf(strokes: readonly MeasuredStroke[], perCycle: number): MeasuredStroke[][] {
  const runs: MeasuredStroke[][] = [];
  let row: MeasuredStroke[] = [];
  let before: number | null = null;
  for (const stroke of strokes) {
    const at = stroke.cycle * perCycle + stroke.index;
    if (before !== null && at - before > perCycle) row = [];
    before = at;
    row.push(stroke);
    if (row.length < RUN_STROKES) continue;
    runs.push(row);
    row = [];
  }
  return runs;
}

/** Confidence below .5 means that the time is not known well enough to hold against anybody. */
const isThereInTime = ({ status, errorMs, confidence }: MeasuredStroke, allowedMs: number, meantMs: number): boolean =>
  status === 'played' && (confidence < 0.5 || Math.abs(errorMs! - meantMs) <= allowedMs);

/** Places whose mean volume lies more than 3 dB from the shape, against the others written like them; of two alone the softer, as it is told. */
function offVolumeOf({ places, pairs }: Measurement, cycle: ExpectedCycle, shapeDb: readonly number[]): number[] {
  const leaning = shapeDb.length > 0 ? [] : leaningKicks(places, pairs);
  const overShape = ({ index, levelDb }: Place) => levelDb! - (shapeDb[index] ?? 0);
  const written = writtenAlike(cycle);
  return places.flatMap((place) => {
    if (place.levelDb === null || leaning.includes(place.index)) return [];
    const alike = places.filter(({ index, levelDb }) => levelDb !== null && written[place.index]!.includes(index));
    const volumes = alike.map(overShape);
    if (alike.length === 2) return Math.max(...volumes) - overShape(place) > VOLUME_DB ? [place.index] : [];
    return Math.abs(overShape(place) - median(volumes)) > VOLUME_DB ? [place.index] : [];
  });
}

/** Kick pairs that lean into the second: a pick-up, not a fault, unless another shape was wanted. */
const leaningKicks = (places: readonly Place[], pairs: Measurement['pairs']): number[] =>
  pairs.flatMap(({ limb, first, second, levelStepDb }) =>
    limb === 'K' && (levelStepDb ?? 0) > 0 && places.filter((place) => place.limb === 'K').length === 2 ? [first, second] : [],
  );
