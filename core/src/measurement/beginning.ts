/** At what tempo and with which stroke of the cycle a take begins: the first stroke heard is the first written unless drums or accents speak against it. */

import { median } from '../quantiles.ts';
import type { Candidate } from '../stroke/index.ts';
import { beatOf, type EventCycle, placeOf } from './events.ts';
import { APART_BEATS, BLIND_STRENGTH, COUNT_IN_GAPS, FAR_TEMPO_STEPS, NEAR_SHARE, ROTATION_MARGIN, TOLD_TEMPO_SHARE } from './parameters.ts';
import { mean } from './statistics.ts';
import { type Anchor, type Track, type TrackingOptions, track } from './tracking.ts';

/** Strong candidates that are enough to choose by. */
const ENOUGH = 160;

/**
 * The track that fits best: tempi near the told one first, then every beginning of the cycle, and tempi further away
 * only if nothing near it fits.
 * @param told seconds per beat, and whether it comes from a click and so is exact.
 */
export function findTrack(candidates: readonly Candidate[], cycle: EventCycle, told: { beatSec: number; exact: boolean }): Track {
  const whole = trackFrom(candidates, cycle, told);
  const { first, last } = playedSpan(whole.anchors, cycle);
  const startSec = candidates[whole.anchors[first]?.candidate ?? 0]?.timeSec ?? 0;
  const before = first === 0 ? 0 : candidates.findIndex(({ timeSec }) => timeSec >= startSec);
  const found = before === 0 ? whole : trackFrom(candidates.slice(before), cycle, told);
  const anchors = found.anchors.map(({ candidate, event }) => ({ candidate: candidate + before, event }));
  const lastCandidate = whole.anchors[last]?.candidate ?? 0;
  return { score: found.score, anchors: anchors.filter(({ candidate }) => candidate <= lastCandidate) };
}

function trackFrom(candidates: readonly Candidate[], cycle: EventCycle, told: { beatSec: number; exact: boolean }): Track {
  const start = firstOf(candidates);
  const steps = told.exact ? [1] : [1, 1 + TOLD_TEMPO_SHARE / 2, 1 - TOLD_TEMPO_SHARE / 2, 1 + TOLD_TEMPO_SHARE, 1 - TOLD_TEMPO_SHARE];
  const near = beginningAt(start, cycle, bestTempo(start, cycle, { steps, beatSec: told.beatSec }));
  if (told.exact || near.share >= NEAR_SHARE) return track(candidates, cycle, near);
  const far = beginningAt(start, cycle, bestTempo(start, cycle, { steps: FAR_TEMPO_STEPS, beatSec: told.beatSec }));
  return track(candidates, cycle, far.share > near.share + FAR_ADVANTAGE ? far : near);
}

/** First and last anchor of the playing itself: what lies before a count-in's end or apart from it all is no part of it. */
function playedSpan(anchors: readonly Anchor[], cycle: EventCycle): { first: number; last: number } {
  const beats = anchors.map(({ event }) => beatOf(cycle, event));
  const gaps = beats.slice(1).map((beat, i) => beat - beats[i]!);
  const longest = Math.max(...gapsOf(cycle));
  const apart = (gap: number | undefined) => gap !== undefined && gap > Math.max(APART_BEATS, 1.5 * longest);
  const first = Math.max(apart(gaps[0]) ? 1 : 0, countInLength(gaps, longest));
  return { first, last: anchors.length - (apart(gaps.at(-1)) ? 2 : 1) };
}

/** Sticks or a foot a beat or two apart, three gaps at least, before something faster than the cycle itself ever pauses. */
function countInLength(gaps: readonly number[], longestBeats: number): number {
  const [gap] = gaps;
  if (gap === undefined || (gap !== 1 && gap !== 2) || longestBeats >= gap || median(gaps) > gap / 2) return 0;
  const length = gaps.findIndex((other) => other !== gap);
  return length >= COUNT_IN_GAPS ? length : 0;
}

function gapsOf({ events, lengthBeats }: EventCycle): number[] {
  return events.map(({ beat }, i) => (events[i + 1]?.beat ?? events[0]!.beat + lengthBeats) - beat);
}

/** How much more of the strong candidates a tempo far from the told one has to explain. Assumption. */
const FAR_ADVANTAGE = 0.15;

/** Standard deviation of the first guess at the tempo, share. */
const BEAT_SHARE = 0.02;

const firstOf = (candidates: readonly Candidate[]): Candidate[] =>
  candidates.filter((candidate) => candidate.strength >= BLIND_STRENGTH).slice(0, ENOUGH);

/** A small advantage of the told tempo, in strokes, over others that fit as well. */
const TOLD_ADVANTAGE = 1;

function bestTempo(start: readonly Candidate[], cycle: EventCycle, from: { steps: readonly number[]; beatSec: number }): number {
  let [best, bestScore] = [from.beatSec, Number.NEGATIVE_INFINITY];
  for (const step of from.steps) {
    const beatSec = from.beatSec * step;
    const score = track(start, cycle, { beatSec, beatShare: BEAT_SHARE, firstEvent: 0 }).score + (step === 1 ? TOLD_ADVANTAGE : 0);
    if (score > bestScore) [best, bestScore] = [beatSec, score];
  }
  return best;
}

interface Beginning extends TrackingOptions {
  /** Share of the strong candidates that the track explains. Missing strokes say nothing here: soft ones may only be weak. */
  readonly share: number;
}

function beginningAt(start: readonly Candidate[], cycle: EventCycle, beatSec: number): Beginning {
  const options = { beatSec, beatShare: BEAT_SHARE, firstEvent: bestBeginning(start, cycle, beatSec) };
  return { ...options, share: track(start, cycle, options).anchors.length / start.length };
}

function bestBeginning(start: readonly Candidate[], cycle: EventCycle, beatSec: number): number {
  const worth = cycle.events.map((_, firstEvent) => {
    const found = track(start, cycle, { beatSec, beatShare: BEAT_SHARE, firstEvent });
    return found.score / start.length + soundEvidence(start, cycle, found);
  });
  const best = worth.reduce((at, value, i) => (value > worth[at]! ? i : at), 0);
  return worth[best]! > worth[0]! + ROTATION_MARGIN ? best : 0;
}

/** How far kicks sound like kicks and accents stand out, if the track is right: −1 to 1 each, 0 when the sticking asks for neither. */
function soundEvidence(start: readonly Candidate[], cycle: EventCycle, { anchors }: Track): number {
  const found = anchors.map(({ candidate, event }) => ({ candidate: start[candidate]!, event: cycle.events[placeOf(cycle, event)]! }));
  const kicks = found.filter(({ event }) => event.kick && !event.hand);
  const hands = found.filter(({ event }) => !event.kick);
  const kickOdds = (group: typeof found) => mean(group.map(({ candidate }) => candidate.drumOdds.kick));
  const drums = kicks.length > 0 && hands.length > 0 ? kickOdds(kicks) - kickOdds(hands) : 0;
  return drums + accentEvidence(hands) / 2;
}

function accentEvidence(hands: readonly { candidate: Candidate; event: EventCycle['events'][number] }[]): number {
  const volumes = (accent: boolean) => hands.flatMap(({ candidate, event }) => (event.accent === accent ? [candidate.volumeDb] : []));
  const [accented, plain] = [volumes(true), volumes(false)];
  if (accented.length === 0 || plain.length === 0) return 0;
  return Math.max(-1, Math.min(1, (mean(accented) - mean(plain)) / 8));
}
