/** What a take shows, put so that causes can be held against it: time and volume of every event, what was missed, what came too many. */
import type { ExpectedCycle } from '../exercise/index.ts';
import { type CycleEvent, type ExtraStroke, eventsOf, type MeasuredStroke, type Measurement, mean, TIMING_CONFIDENCE } from '../measurement/index.ts';
import { median, robustSpread } from '../quantiles.ts';
import { msOfSec } from '../units.ts';
import { APART_MS, BOUNCE_MS, CLIP_SPREADS, FIRST_OF_TWO, LEAST_NOISE, NATURAL, SPREAD_TRUST } from './parameters.ts';

/** Values of one kind, time in ms or volume in dB, event by event. */
export interface Observed {
  /** Which event of the cycle, which cycle, and the value drawn in to its place when far off. */
  readonly place: Int32Array;
  readonly cycle: Int32Array;
  readonly value: Float64Array;
  /** Per event of the cycle: how many, their mean, the deviation of one of them, and what the mean is worth: 1 / variance, 0 of none. */
  readonly counts: Float64Array;
  readonly means: Float64Array;
  readonly deviations: Float64Array;
  readonly precisions: Float64Array;
}

/** How often something happened at each event of the cycle, of how many times it could. */
export interface Counted {
  readonly hits: Float64Array;
  readonly chances: Float64Array;
}

/** A take as evidence. */
export interface ObservedTake {
  readonly events: readonly CycleEvent[];
  readonly lengthBeats: number;
  /** First cycle and the number of cycles from it to the last. */
  readonly firstCycle: number;
  readonly cycleCount: number;
  readonly time: Observed;
  readonly volume: Observed;
  readonly missed: Counted;
  /** One onset too many after the event, within a bounce's reach. */
  readonly bounced: Counted;
  /** Strokes meant together that were heard as two. */
  readonly apart: Counted;
  /** Errors are told against a click, so that a drift against it can be seen. */
  readonly clicked: boolean;
}

/** A measurement and what was to be played, event by event. */
export function observe(measurement: Measurement, cycle: ExpectedCycle): ObservedTake {
  const { events, lengthBeats } = eventsOf(cycle);
  const placeOf = new Map(events.flatMap(({ strokes }, place) => strokes.map(({ index }) => [index, place] as const)));
  const firsts = oncePerEvent(measurement.strokes, placeOf);
  const cycles = firsts.map(({ cycle: number }) => number);
  const joint = events.map(({ strokes }) => strokes.length > 1);
  const firstOfTwo = ({ index }: MeasuredStroke) => (joint[placeOf.get(index)!] ? FIRST_OF_TWO.earlyMs : 0);
  const naturalMs = joint.map((together) => (together ? FIRST_OF_TWO.naturalMs : NATURAL.ms));
  const rowsOf = (usable: (stroke: MeasuredStroke) => number | null): Row[] =>
    firsts.flatMap((stroke) => {
      const value = usable(stroke);
      return value === null ? [] : [{ place: placeOf.get(stroke.index)!, cycle: stroke.cycle, value }];
    });
  return {
    events,
    lengthBeats,
    firstCycle: Math.min(...cycles),
    cycleCount: Math.max(...cycles) - Math.min(...cycles) + 1,
    time: observedOf(
      rowsOf((stroke) => (stroke.errorMs !== null && stroke.confidence >= TIMING_CONFIDENCE ? stroke.errorMs + firstOfTwo(stroke) : null)),
      { least: LEAST_NOISE.ms, natural: naturalMs },
    ),
    volume: observedOf(
      rowsOf(({ levelDb }) => levelDb),
      { least: LEAST_NOISE.db, natural: events.map(() => NATURAL.db) },
    ),
    missed: missedOf(firsts, events, placeOf),
    ...tooMany(firsts, measurement.extra, { events, placeOf }),
    clicked: measurement.offsetMs !== null,
  };
}

/** Strokes written together were heard as one, so they count once. */
function oncePerEvent(strokes: readonly MeasuredStroke[], placeOf: ReadonlyMap<number, number>): MeasuredStroke[] {
  const seen = new Set<string>();
  return strokes.filter(({ cycle, index }) => {
    const key = `${cycle}:${placeOf.get(index)}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

interface Row {
  readonly place: number;
  readonly cycle: number;
  readonly value: number;
}

function observedOf(rows: readonly Row[], how: { least: number; natural: readonly number[] }): Observed {
  const byPlace: Row[][] = how.natural.map(() => []);
  for (const row of rows) byPlace[row.place]!.push(row);
  const centres = byPlace.map((here) => (here.length > 0 ? median(here.map(({ value }) => value)) : 0));
  const whole = Math.max(how.least, robustSpread(rows.map(({ value, place }) => value - centres[place]!)) || 0);
  const spreads = byPlace.map((here) => spreadOf(here, whole));
  const drawnIn = ({ place, value }: Row) => {
    const reach = CLIP_SPREADS * spreads[place]!;
    return centres[place]! + Math.max(-reach, Math.min(reach, value - centres[place]!));
  };
  const counts = Float64Array.from(byPlace, (here) => here.length);
  return {
    place: Int32Array.from(rows, ({ place }) => place),
    cycle: Int32Array.from(rows, ({ cycle }) => cycle),
    value: Float64Array.from(rows, drawnIn),
    counts,
    means: Float64Array.from(byPlace, (here) => (here.length > 0 ? mean(here.map(drawnIn)) : 0)),
    deviations: Float64Array.from(spreads),
    precisions: counts.map((count, place) => (count > 0 ? 1 / (spreads[place]! ** 2 / count + how.natural[place]! ** 2) : 0)),
  };
}

/** The spread of a place, drawn towards that of the whole take where few strokes tell it. */
function spreadOf(here: readonly Row[], whole: number): number {
  const own = here.length > 2 ? robustSpread(here.map(({ value }) => value)) : whole;
  return Math.max(1e-6, Math.sqrt((SPREAD_TRUST * whole ** 2 + here.length * own ** 2) / (SPREAD_TRUST + here.length)));
}

function missedOf(strokes: readonly MeasuredStroke[], events: readonly CycleEvent[], placeOf: ReadonlyMap<number, number>): Counted {
  const hits = new Float64Array(events.length);
  const chances = new Float64Array(events.length);
  for (const { index, status } of strokes) {
    if (status === 'notAudible') continue;
    chances[placeOf.get(index)!]! += 1;
    if (status === 'missed') hits[placeOf.get(index)!]! += 1;
  }
  return { hits, chances };
}

interface Surroundings {
  readonly events: readonly CycleEvent[];
  readonly placeOf: ReadonlyMap<number, number>;
}

/** Onsets too many, given to the strokes they follow; beside strokes meant together they are one of these come apart. */
function tooMany(
  strokes: readonly MeasuredStroke[],
  extra: readonly ExtraStroke[],
  { events, placeOf }: Surroundings,
): Pick<ObservedTake, 'bounced' | 'apart'> {
  const played = strokes.filter(({ playedSec }) => playedSec !== null).sort((a, b) => a.playedSec! - b.playedSec!);
  const none = () => new Float64Array(events.length);
  const chances = none();
  const [bounces, aparts] = [none(), none()];
  for (const { index } of played) chances[placeOf.get(index)!]! += 1;
  for (const { timeSec } of extra) {
    const at = lastBefore(played, timeSec);
    const [before, after] = [played[at], played[at + 1]];
    const [sinceMs, untilMs] = [before ? msOfSec(timeSec - before.playedSec!) : Infinity, after ? msOfSec(after.playedSec! - timeSec) : Infinity];
    const joint = (stroke: MeasuredStroke | undefined) => stroke !== undefined && events[placeOf.get(stroke.index)!]!.strokes.length > 1;
    if (sinceMs <= APART_MS && joint(before)) aparts[placeOf.get(before!.index)!]! += 1;
    else if (untilMs <= APART_MS && joint(after)) aparts[placeOf.get(after!.index)!]! += 1;
    else if (sinceMs <= BOUNCE_MS && sinceMs < 0.9 * (sinceMs + untilMs)) bounces[placeOf.get(before!.index)!]! += 1;
  }
  const capped = (hits: Float64Array) => ({ hits: hits.map((count, place) => Math.min(count, chances[place]!)), chances });
  return { bounced: capped(bounces), apart: capped(aparts) };
}

/** Index of the last stroke played at or before `sec`, −1 when there is none. */
function lastBefore(played: readonly MeasuredStroke[], sec: number): number {
  let [low, high] = [0, played.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (played[middle]!.playedSec! <= sec) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}
