/** Which candidate is which expected stroke once the grid is known: order kept, weak ones let in only where something is expected. */
import type { Candidate } from '../stroke/index.ts';
import { msOfSec, secOfMs } from '../units.ts';
import { align } from './align.ts';
import { secOfBeat, type TimeMap } from './click.ts';
import { beatOf, type EventCycle, placeOf } from './events.ts';
import { GRACE_MS, MATCH_COST, MATCH_WINDOW_MS, MATCH_WINDOW_SHARE, PLACE_SPREAD } from './parameters.ts';
import { likeness, type PlaceModel } from './placemodel.ts';

export interface MatchOptions {
  readonly map: TimeMap;
  /** Per event of the cycle. */
  readonly models: readonly PlaceModel[];
  /** First and last event asked for, counting through all cycles. */
  readonly firstEvent: number;
  readonly lastEvent: number;
}

/** An event and what was heard for it. */
export interface MatchedEvent {
  readonly event: number;
  readonly gridSec: number;
  /** How far to either side of the grid it was looked for. */
  readonly windowSec: number;
  /** Index of the candidate, −1 when nothing was heard. */
  readonly candidate: number;
  readonly graces: readonly number[];
}

/** Onset looked for: a main stroke, or a grace before it. */
interface Wanted {
  readonly event: MatchedEvent;
  readonly model: PlaceModel;
  readonly grace: boolean;
  readonly centreSec: number;
  readonly windowSec: number;
}

/**
 * Matches candidates to the events from `firstEvent` to `lastEvent`.
 * @param candidates in order of time.
 * @returns one entry per event, in order.
 */
export function matchEvents(candidates: readonly Candidate[], cycle: EventCycle, options: MatchOptions): MatchedEvent[] {
  const events = windows(cycle, options);
  const wanted = events.flatMap((event) => wantedOf(event, cycle, options.models));
  const reaches = reachesOf(wanted, candidates);
  const { heardOf } = align(wanted.length, candidates.length, {
    pair: (i, j) => pairCost(wanted[i]!, candidates[j]!),
    missing: (i) => (wanted[i]!.grace ? 0 : MATCH_COST.missing),
    extra: (j) => -Math.log(1 - oddsOf(candidates[j]!)),
    reach: (i) => reaches[i]!,
  });
  return collect(wanted, heardOf, candidates);
}

/** The window of each event, never over half way to its neighbours. */
function windows(cycle: EventCycle, options: MatchOptions): MatchedEvent[] {
  const events: MatchedEvent[] = [];
  for (let event = options.firstEvent; event <= options.lastEvent; event++) {
    const place = placeOf(cycle, event);
    const beat = beatOf(cycle, event);
    const gridSec = secOfBeat(options.map, beat);
    const spaceSec = secOfBeat(options.map, beat + cycle.events[place]!.spaceBeats) - gridSec;
    const windowSec = Math.min(secOfMs(MATCH_WINDOW_MS), MATCH_WINDOW_SHARE * spaceSec);
    events.push({ event, gridSec, windowSec, candidate: -1, graces: [] });
  }
  return events;
}

function wantedOf(event: MatchedEvent, cycle: EventCycle, models: readonly PlaceModel[]): Wanted[] {
  const place = placeOf(cycle, event.event);
  const model = models[place]!;
  const main: Wanted = { event, model, grace: false, centreSec: event.gridSec, windowSec: event.windowSec };
  const graces = Array.from({ length: cycle.events[place]!.graceCount }, (): Wanted => {
    const centreSec = event.gridSec + model.biasSec - secOfMs(GRACE_MS.usual);
    return { event, model, grace: true, centreSec, windowSec: (GRACE_MS.earliest - GRACE_MS.latest) / 2000 + event.windowSec / 2 };
  });
  return [...graces, main];
}

function reachesOf(wanted: readonly Wanted[], candidates: readonly Candidate[]): (readonly [number, number])[] {
  let [from, to] = [0, 0];
  return wanted.map(({ centreSec, windowSec }) => {
    while (from < candidates.length && candidates[from]!.timeSec < centreSec - windowSec) from += 1;
    while (to < candidates.length && candidates[to]!.timeSec <= centreSec + windowSec) to += 1;
    return [from, Math.max(from, to)] as const;
  });
}

/** Cost in nats; Infinity outside the window. */
function pairCost(wanted: Wanted, candidate: Candidate): number {
  const offSec = candidate.timeSec - wanted.centreSec;
  if (Math.abs(offSec) > wanted.windowSec) return Number.POSITIVE_INFINITY;
  const standing = -Math.log(oddsOf(candidate));
  if (wanted.grace) return MATCH_COST.grace + 0.5 * (offSec / secOfMs(GRACE_MS.spread)) ** 2 + standing;
  return timeCost(wanted, offSec) + standing + soundCost(wanted.model, candidate);
}

/**
 * About its usual place a stroke's time has heavy tails (a t distribution of three degrees), since players now and then
 * place one far off; the place itself lies near the grid (normal), or else an echo heard in every cycle would become one.
 */
function timeCost({ model, event }: Wanted, offSec: number): number {
  const aboutPlace = (offSec - model.biasSec) / model.spreadSec;
  const aboutGrid = offSec / Math.min(PLACE_SPREAD.sec, PLACE_SPREAD.windowShare * event.windowSec);
  return 1.5 * Math.log(1 + (aboutPlace * aboutPlace) / 3) + 0.5 * aboutGrid * aboutGrid;
}

/** Probability that a candidate is a stroke at its own time, kept away from the certainty that would forbid everything else. */
const oddsOf = ({ confidence }: Candidate): number => Math.min(0.95, Math.max(0.02, confidence));

function soundCost({ volume, drumRoots }: PlaceModel, candidate: Candidate): number {
  if (!volume || !drumRoots) return 0;
  const z = (candidate.volumeDb - volume.medianDb) / volume.spreadDb;
  return 0.25 * Math.min(12, z * z) - Math.log(Math.max(0.05, likeness(drumRoots, candidate.drumOdds)));
}

function collect(wanted: readonly Wanted[], heardOf: Int32Array, candidates: readonly Candidate[]): MatchedEvent[] {
  const events: MatchedEvent[] = [];
  let graces: number[] = [];
  wanted.forEach(({ event, grace }, i) => {
    const candidate = heardOf[i]!;
    if (grace) {
      if (candidate >= 0) graces.push(candidate);
      return;
    }
    events.push({ ...event, candidate, graces: candidate < 0 ? [] : graces.filter((j) => isGrace(candidates[j]!, candidates[candidate]!)) });
    graces = [];
  });
  return events;
}

/** Close enough before its main stroke to be heard as its grace. */
function isGrace(grace: Candidate, main: Candidate): boolean {
  const beforeMs = msOfSec(main.timeSec - grace.timeSec);
  return beforeMs >= GRACE_MS.latest && beforeMs <= GRACE_MS.earliest;
}
