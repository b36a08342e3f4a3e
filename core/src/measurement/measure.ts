/** A take's candidates held against what was to be played. */
import type { ExpectedCycle } from '../exercise/index.ts';
import type { Reading } from '../problem.ts';
import { median } from '../quantiles.ts';
import type { Candidate, Loudness } from '../stroke/index.ts';
import { beatSec as beatSecOf, bpmOfBeatSec, msOfSec } from '../units.ts';
import { findTrack } from './beginning.ts';
import { beatOfSec, clickMap, secOfBeat, type TimeMap } from './click.ts';
import { doubtsOf } from './doubts.ts';
import { beatOf, cycleOf, type EventCycle, eventBefore, eventsOf, placeOf } from './events.ts';
import { type Grid, gridOf } from './grid.ts';
import { type MatchedEvent, matchEvents } from './matching.ts';
import type { ExtraStroke, GridBeat, MeasuredStroke, Measurement, MeasurementProblem } from './measurement.ts';
import { BLIND_STRENGTH, EXTRA_CONFIDENCE, ROUNDS } from './parameters.ts';
import { pairsOf, placesOf } from './places.ts';
import { quietnessIn } from './quietness.ts';
import { hiddenShares, judgeAbsence } from './status.ts';
import type { Anchor } from './tracking.ts';

export interface MeasureOptions {
  /** The tempo that was told, in beats per minute; the take may be up to 6 % off. */
  readonly tempoBpm: number;
  readonly durationSec: number;
  /** When the click sounded, in seconds of the take, if that is known; clicks may be missing. */
  readonly clickTimesSec?: readonly number[];
  /** How loud it was at any moment, from the ear: tells left-out strokes from hidden ones better. */
  readonly loudness?: Loudness;
}

/** Fewer strong candidates than this are nothing to find a tempo in. Assumption: two strokes give one interval and nothing to test it by. */
const FEWEST_STROKES = 4;

/**
 * Measures a take: grid, what became of each expected stroke, figures per place and per pair.
 * @param candidates what the ear gave, in any order.
 * @param cycle what was to be played over and over; at least one stroke.
 * @returns refused with `nothing-to-match` or `tempo-not-found`; other problems are doubts beside the value.
 */
export function measure(candidates: readonly Candidate[], cycle: ExpectedCycle, options: MeasureOptions): Reading<Measurement, MeasurementProblem> {
  const heard = [...candidates].sort((a, b) => a.timeSec - b.timeSec);
  const strokeCount = heard.filter((candidate) => candidate.strength >= BLIND_STRENGTH).length;
  if (strokeCount < FEWEST_STROKES) {
    return { value: null, problems: [{ code: 'nothing-to-match', severity: 'refused', params: { strokeCount } }] };
  }
  const events = eventsOf(cycle);
  const click = clickMap(options.clickTimesSec ?? [], options.tempoBpm);
  const { anchors } = findTrack(heard, events, { beatSec: click ? beatSecIn(click) : beatSecOf(options.tempoBpm), exact: click !== null });
  if (anchors.length < FEWEST_STROKES) return tempoNotFound(options.tempoBpm);
  const matched = settle(heard, events, { anchors, click, durationSec: options.durationSec });
  if (matched === null) return tempoNotFound(options.tempoBpm);
  const value = measurementOf(heard, events, { ...matched, tempoBpm: options.tempoBpm, loudness: options.loudness ?? null });
  const settled = matched.events.flatMap(({ event, candidate }) => (candidate >= 0 ? [{ event, candidate }] : []));
  return { value, problems: doubtsOf(value, { candidates: heard, cycle: events, anchors: settled }) };
}

const tempoNotFound = (tempoBpm: number): Reading<Measurement, MeasurementProblem> => ({
  value: null,
  problems: [{ code: 'tempo-not-found', severity: 'refused', params: { tempoBpm } }],
});

/** Seconds per beat of a map, as the median between its points. */
function beatSecIn({ beats, secs }: TimeMap): number {
  return median(Array.from(secs.subarray(1), (sec, i) => (sec - secs[i]!) / (beats[i + 1]! - beats[i]!)));
}

interface Matched {
  readonly grid: Grid;
  readonly events: readonly MatchedEvent[];
}

/** Grid and match in turn until both rest on each other; null when next to nothing is left to match. */
function settle(
  candidates: readonly Candidate[],
  cycle: EventCycle,
  from: { anchors: readonly Anchor[]; click: TimeMap | null; durationSec: number },
): Matched | null {
  const firstEvent = from.anchors[0]!.event;
  const lastSec = candidates[from.anchors.at(-1)!.candidate]!.timeSec;
  let anchors = from.anchors;
  let matched = null as Matched | null;
  for (let round = 0; round < ROUNDS; round++) {
    const grid = gridOf(candidates, cycle, { anchors, click: from.click, before: matched?.grid ?? null });
    const lastEvent = endOfCycle(cycle, Math.max(anchors.at(-1)!.event, eventBefore(cycle, beatOfSec(grid.map, lastSec))), grid, from.durationSec);
    const asked = { map: grid.map, models: grid.models, firstEvent, lastEvent };
    const events = playedOnly(matchEvents(candidates, cycle, asked), cycle);
    const next = events.flatMap(({ event, candidate }) => (candidate >= 0 ? [{ event, candidate }] : []));
    matched = { grid, events };
    if (next.length < FEWEST_STROKES) return null;
    anchors = next;
  }
  return matched;
}

/** The last event of the cycle that `event` is in, as far as the take goes on. */
function endOfCycle(cycle: EventCycle, event: number, grid: Grid, durationSec: number): number {
  let last = (cycleOf(cycle, event) + 1) * cycle.events.length - 1;
  while (last > event && secOfBeat(grid.map, beatOf(cycle, last)) > durationSec) last -= 1;
  return last;
}

/** Up to this share of a cycle may be missing at the end and still count as missed; more, and the player had stopped. Assumption. */
const OPEN_END = 0.25;

/** Leaves out pauses, long rows in which nothing at all was heard, and the strokes after the player had stopped. */
function playedOnly(events: readonly MatchedEvent[], cycle: EventCycle): MatchedEvent[] {
  const longest = Math.max(PAUSE_EVENTS, cycle.events.length);
  const kept: MatchedEvent[] = [];
  let silent: MatchedEvent[] = [];
  for (const event of events) {
    silent.push(event);
    if (event.candidate < 0) continue;
    if (silent.length > longest) silent = [event];
    kept.push(...silent);
    silent = [];
  }
  return silent.length <= OPEN_END * cycle.events.length ? [...kept, ...silent] : kept;
}

/** A row of at least so many strokes, and a cycle, of which none is heard is a pause. Assumption. */
const PAUSE_EVENTS = 8;

function measurementOf(
  candidates: readonly Candidate[],
  cycle: EventCycle,
  from: Matched & { tempoBpm: number; loudness: Loudness | null },
): Measurement {
  const strokes = strokesOf(candidates, cycle, from);
  const extra = extraOf(candidates, cycle, from.events);
  const grid = gridBeats(from.grid.map, cycle, from.events);
  return {
    tempoBpm: from.tempoBpm,
    trackedBpm: bpmOfBeatSec(median(grid.slice(1).map(({ sec }, i) => sec - grid[i]!.sec))),
    offsetMs: from.grid.offsetSec === null ? null : msOfSec(from.grid.offsetSec),
    grid,
    strokes,
    extra,
    places: placesOf(strokes, cycle),
    pairs: pairsOf(strokes, extra, cycle),
  };
}

function strokesOf(candidates: readonly Candidate[], cycle: EventCycle, from: Matched & { loudness: Loudness | null }): MeasuredStroke[] {
  const { events, grid, loudness } = from;
  const hidden = hiddenShares(events, candidates, cycle);
  const quietness = loudness && quietnessIn(loudness, cycle, { events, candidates, models: grid.models });
  return events.flatMap((matched) => {
    const place = placeOf(cycle, matched.event);
    const heard = matched.candidate < 0 ? null : candidates[matched.candidate]!;
    const absence = heard
      ? null
      : judgeAbsence(matched, grid.models[place]!, { candidates, hidden: hidden[place]!, quietness: quietness?.(matched) ?? null });
    const graces = matched.graces.map((i) => ({ playedSec: candidates[i]!.timeSec, levelDb: candidates[i]!.volumeDb }));
    return cycle.events[place]!.strokes.map((stroke) => ({
      cycle: cycleOf(cycle, matched.event),
      index: stroke.index,
      limb: stroke.limb,
      status: absence?.status ?? 'played',
      expectedSec: matched.gridSec,
      playedSec: heard ? heard.timeSec : null,
      errorMs: heard ? msOfSec(heard.timeSec - matched.gridSec) : null,
      levelDb: heard ? heard.volumeDb : null,
      confidence: absence?.confidence ?? heard!.confidence,
      graces: stroke.graceCount > 0 ? graces : [],
    }));
  });
}

/** What is surely a stroke and belongs to no expected one, from the first expected stroke to a beat after the last; what a buzz rattles is its own. */
function extraOf(candidates: readonly Candidate[], cycle: EventCycle, events: readonly MatchedEvent[]): ExtraStroke[] {
  const used = new Set(events.flatMap(({ candidate, graces }) => [candidate, ...graces]));
  const from = events[0]!.gridSec - events[0]!.windowSec;
  const to = events.at(-1)!.gridSec + (events.at(-1)!.gridSec - events[0]!.gridSec) / Math.max(1, events.length - 1);
  const buzzes = events.filter(({ event, candidate }) => candidate >= 0 && cycle.events[placeOf(cycle, event)]!.buzz);
  return candidates.flatMap(({ timeSec, strength, confidence, volumeDb }, i) => {
    if (strength < BLIND_STRENGTH || confidence < EXTRA_CONFIDENCE || used.has(i) || timeSec < from || timeSec > to) return [];
    const rattles = buzzes.some(
      ({ candidate, windowSec }) => timeSec > candidates[candidate]!.timeSec && timeSec < candidates[candidate]!.timeSec + 2 * windowSec,
    );
    return rattles ? [] : [{ timeSec, levelDb: volumeDb }];
  });
}

/** Every whole beat from the first expected stroke to the one after the last. */
function gridBeats(map: TimeMap, cycle: EventCycle, events: readonly MatchedEvent[]): GridBeat[] {
  const first = Math.floor(beatOf(cycle, events[0]!.event));
  const last = Math.ceil(beatOf(cycle, events.at(-1)!.event)) + 1;
  return Array.from({ length: last - first + 1 }, (_, i) => ({ beat: first + i, sec: secOfBeat(map, first + i) }));
}
