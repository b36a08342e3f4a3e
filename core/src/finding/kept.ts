/** A take of which a diary keeps places and pairs but no single strokes, as evidence: enough for everything that is the same in each cycle. */
import type { ExpectedCycle } from '../exercise/index.ts';
import { eventsOf, type Measurement, type Pair, type Place } from '../measurement/index.ts';
import { median } from '../quantiles.ts';
import type { Counted, Observed, ObservedTake } from './observed.ts';
import { KEPT_VOLUME_DB, LEAST_NOISE, NATURAL, SPREAD_TRUST } from './parameters.ts';

/** Whether nothing but summaries is known of a measurement. */
export const isKept = ({ strokes, places }: Pick<Measurement, 'strokes' | 'places'>): boolean => strokes.length === 0 && places.length > 0;

/** What a kept measurement shows, event by event; what changes from cycle to cycle cannot be seen in it. */
export function observeKept({ places, pairs, offsetMs }: Measurement, cycle: ExpectedCycle): ObservedTake {
  const { events, lengthBeats } = eventsOf(cycle);
  const here = events.map(({ strokes }) => places.find(({ index }) => index === strokes[0]!.index) ?? null);
  const heard = here.map((place) => place?.count ?? 0);
  return {
    events,
    lengthBeats,
    firstCycle: 0,
    cycleCount: Math.max(1, ...heard),
    time: timesOf(here),
    volume: observedOf(
      here.map((place) => (place && place.levelDb !== null ? { mean: place.levelDb, count: place.count, deviation: KEPT_VOLUME_DB } : null)),
      NATURAL.db,
    ),
    missed: {
      hits: Float64Array.from(here, (place) => place?.missed ?? 0),
      chances: Float64Array.from(here, (place) => (place ? place.count + place.missed : 0)),
    },
    bounced: bouncedOf(events, pairs, heard),
    apart: { hits: new Float64Array(events.length), chances: new Float64Array(events.length) },
    clicked: offsetMs !== null,
  };
}

interface Summary {
  readonly mean: number;
  readonly count: number;
  readonly deviation: number;
}

function timesOf(here: readonly (Place | null)[]): Observed {
  const spreads = here.flatMap((place) => place?.spreadMs ?? []);
  const whole = Math.max(LEAST_NOISE.ms, spreads.length > 0 ? median(spreads) : 0);
  const summaries = here.map((place): Summary | null => {
    if (!place || place.unsure || place.biasMs === null) return null;
    const own = place.spreadMs ?? whole;
    const deviation = Math.sqrt((SPREAD_TRUST * whole ** 2 + place.count * own ** 2) / (SPREAD_TRUST + place.count));
    return { mean: place.biasMs, count: place.count, deviation };
  });
  return observedOf(summaries, NATURAL.ms);
}

function observedOf(summaries: readonly (Summary | null)[], natural: number): Observed {
  const from = (of: (summary: Summary) => number, otherwise: number) =>
    Float64Array.from(summaries, (summary) => (summary && summary.count > 0 ? of(summary) : otherwise));
  return {
    place: new Int32Array(0),
    cycle: new Int32Array(0),
    value: new Float64Array(0),
    counts: from(({ count }) => count, 0),
    means: from(({ mean }) => mean, 0),
    deviations: from(({ deviation }) => deviation, 1),
    precisions: from(({ deviation, count }) => 1 / (deviation ** 2 / count + natural ** 2), 0),
  };
}

/** Bounces are kept with the pair that they followed. */
function bouncedOf(events: ObservedTake['events'], pairs: readonly Pair[], heard: readonly number[]): Counted {
  const hits = Float64Array.from(events, ({ strokes }, place) => {
    const after = pairs.filter(({ second }) => strokes.some(({ index }) => index === second));
    return Math.min(
      heard[place]!,
      after.reduce((sum, { extraBounces }) => sum + extraBounces, 0),
    );
  });
  return { hits, chances: Float64Array.from(heard) };
}
