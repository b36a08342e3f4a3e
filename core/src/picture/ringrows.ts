/** What the stroke ring shows, stroke by stroke, as figures: the ring is drawn from these rows, and a table says the same with them. */
import type { ExpectedCycle, ExpectedStroke } from '../exercise/index.ts';
import type { Measurement, Place } from '../measurement/index.ts';
import { median } from '../quantiles.ts';
import { toNumber } from '../rational.ts';
import { msOfSec } from '../units.ts';

/** A place of the cycle. Times in ms, negative is early; null where nothing usable was heard. */
export interface RingRow {
  /** From 0. */
  readonly index: number;
  readonly limb: string;
  readonly surface: string;
  readonly ghost: boolean;
  /** Where it is written, as a share of the cycle from its start, 0 to below 1. */
  readonly at: number;
  readonly biasMs: number | null;
  readonly lowMs: number | null;
  readonly highMs: number | null;
  readonly spreadMs: number | null;
  /** Volume against the middle of all places on the same drum, dB. */
  readonly volumeDb: number | null;
  readonly heard: number;
  readonly missed: number;
  readonly notAudible: number;
  /** Median time of each grace before the main stroke, earliest first. */
  readonly graceLeadsMs: readonly number[];
}

/** Rows by index, for those strokes that are both expected and measured. */
export function ringRows(measurement: Measurement, cycle: ExpectedCycle): readonly RingRow[] {
  return cycle.strokes.flatMap((stroke) => {
    const place = measurement.places.find(({ index }) => index === stroke.index);
    return place ? [rowOf(stroke, place, { measurement, cycle })] : [];
  });
}

function rowOf(
  stroke: ExpectedStroke,
  place: Place,
  { measurement, cycle }: { readonly measurement: Measurement; readonly cycle: ExpectedCycle },
): RingRow {
  const { index, limb, surface, ghost } = stroke;
  const alike = cycle.strokes.filter((other) => other.surface === surface).map((other) => other.index);
  const levels = measurement.places.flatMap(({ index: other, levelDb }) => (alike.includes(other) && levelDb !== null ? [levelDb] : []));
  return {
    index,
    limb,
    surface,
    ghost,
    at: toNumber(stroke.beat) / toNumber(cycle.lengthBeats),
    biasMs: place.biasMs,
    lowMs: place.biasLowMs,
    highMs: place.biasHighMs,
    spreadMs: place.spreadMs,
    volumeDb: place.levelDb === null ? null : place.levelDb - median(levels),
    heard: measurement.strokes.filter((each) => each.index === index && each.status === 'played').length,
    missed: place.missed,
    notAudible: place.notAudible,
    graceLeadsMs: graceLeads(measurement, stroke),
  };
}

/** The median lead of each grace, counted from the main stroke backwards, over those strokes in which it was heard. */
function graceLeads({ strokes }: Measurement, { index, graceCount }: ExpectedStroke): readonly number[] {
  const leads = strokes.flatMap(({ index: at, playedSec, graces }) =>
    at === index && playedSec !== null ? [graces.map((grace) => msOfSec(playedSec - grace.playedSec)).sort((a, b) => a - b)] : [],
  );
  const ofGrace = (k: number) => leads.flatMap((row) => row[k] ?? []);
  return Array.from({ length: graceCount }, (_, k) => ofGrace(graceCount - 1 - k))
    .filter((heard) => heard.length > 0)
    .map(median);
}
