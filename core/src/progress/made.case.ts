/** Measurements made from given numbers, for tests of what is told about them. */
import type { MeasuredStroke, Measurement, Place } from '../measurement/index.ts';
import { median, robustSpread } from '../quantiles.ts';
import { normal, seededRandom } from '../random.ts';

/** One place as it is to come out. */
export interface MadePlace {
  readonly limb: Place['limb'];
  readonly biasMs?: number;
  readonly spreadMs?: number;
  readonly levelDb?: number;
  /** Cycles in which it is missed. */
  readonly missed?: number;
  /** Milliseconds before the main stroke at which a grace falls; default none. */
  readonly graceMs?: number;
}

/** A measurement of `cycles` cycles whose strokes scatter normally about what each place says; intervals by the normal formula. */
export function madeMeasurement(
  places: readonly MadePlace[],
  options: {
    readonly cycles?: number;
    readonly tempoBpm?: number;
    readonly perBeat?: number;
    readonly seed?: number;
    /** Places from the strokes that were drawn, not from what they were drawn from. */
    readonly measured?: boolean;
  } = {},
): Measurement {
  const { cycles = 20, tempoBpm = 90, perBeat = 4, seed = 1, measured = false } = options;
  const random = seededRandom(seed);
  const slotSec = 60 / (tempoBpm * perBeat);
  const strokes = Array.from({ length: cycles * places.length }, (_, k) => {
    const [cycle, index] = [Math.floor(k / places.length), k % places.length];
    return madeStroke(places[index]!, { cycle, index, expectedSec: k * slotSec, random });
  });
  return {
    tempoBpm,
    trackedBpm: tempoBpm,
    offsetMs: 0,
    grid: [],
    strokes,
    extra: [],
    places: places.map((place, index) => {
      const errors = strokes.flatMap((stroke) => (stroke.index === index && stroke.errorMs !== null ? [stroke.errorMs] : []));
      const drawn = measured ? { ...place, biasMs: median(errors), spreadMs: robustSpread(errors) } : place;
      return madePlace(drawn, index, errors.length);
    }),
    pairs: [],
  };
}

function madeStroke(
  place: MadePlace,
  at: { readonly cycle: number; readonly index: number; readonly expectedSec: number; readonly random: () => number },
): MeasuredStroke {
  const { cycle, index, expectedSec, random } = at;
  const errorMs = (place.biasMs ?? 0) + (place.spreadMs ?? 6) * normal(random);
  const levelDb = (place.levelDb ?? -20) + normal(random);
  const played = cycle >= (place.missed ?? 0);
  const playedSec = expectedSec + errorMs / 1000;
  return {
    cycle,
    index,
    limb: place.limb,
    status: played ? 'played' : 'missed',
    expectedSec,
    playedSec: played ? playedSec : null,
    errorMs: played ? errorMs : null,
    levelDb: played ? levelDb : null,
    confidence: 1,
    graces: played && place.graceMs !== undefined ? [{ playedSec: playedSec - place.graceMs / 1000, levelDb: levelDb - 8 }] : [],
  };
}

function madePlace({ limb, biasMs = 0, spreadMs = 6, levelDb = -20, missed = 0 }: MadePlace, index: number, count: number): Place {
  const half = (1.96 * 1.2533 * spreadMs) / Math.sqrt(Math.max(1, count));
  const told = count > 0;
  return {
    index,
    limb,
    count,
    biasMs: told ? biasMs : null,
    biasLowMs: told ? biasMs - half : null,
    biasHighMs: told ? biasMs + half : null,
    spreadMs: told ? spreadMs : null,
    levelDb: told ? levelDb : null,
    missed,
    notAudible: 0,
    unsure: false,
  };
}
