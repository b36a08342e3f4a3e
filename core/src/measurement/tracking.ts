/** Which strong candidates are which strokes, while the tempo is still unknown: many guesses followed at once, the best kept. */
import type { Candidate } from '../stroke/index.ts';
import { secOfMs } from '../units.ts';
import { beatOf, type EventCycle, placeOf } from './events.ts';
import { BLIND_STRENGTH, GRACE_MS } from './parameters.ts';

/** A candidate given to an event; `event` counts on through all cycles. */
export interface Anchor {
  readonly candidate: number;
  readonly event: number;
}

export interface Track {
  /** Grows by about 1 for each event found where it was expected; compare tracks of one take only. */
  readonly score: number;
  readonly anchors: readonly Anchor[];
}

export interface TrackingOptions {
  /** Seconds per beat to begin with, and how far off that may be (standard deviation, share). */
  readonly beatSec: number;
  readonly beatShare: number;
  /** Which event of the cycle the first stroke heard is taken for. */
  readonly firstEvent: number;
}

/** One guess: what the last event was, when it would have come on the grid, and how long a beat lasts, with their uncertainty. */
interface Guess {
  readonly event: number;
  readonly phaseSec: number;
  readonly beatSec: number;
  readonly phaseVar: number;
  readonly crossVar: number;
  readonly beatVar: number;
  readonly score: number;
  /** Strong candidates left out since the last event, latest last. */
  readonly leftOut: readonly number[];
  readonly link: Link | null;
}

interface Link extends Anchor {
  readonly before: Link | null;
}

const GUESSES = 8;
/** How far behind the best a guess is given up. */
const HOPELESS = 8;
const MISSING_COST = 0.15;
const EXTRA_COST = 0.9;
/** A tempo further than this from the one it was begun at has lost the thread: half a step of those tried, and drift. */
const FURTHEST_SHARE = 0.08;
/** Change of tempo from beat to beat, share: tempi wander by some tenths of a per cent a beat. */
const WANDER_SHARE = 0.0025;

/**
 * Follows the cycle through the strong candidates of a take.
 * @param candidates in order of time.
 * @returns the best track; no anchors when there is no strong candidate.
 */
export function track(candidates: readonly Candidate[], cycle: EventCycle, options: TrackingOptions): Track {
  const strong = candidates.flatMap((candidate, i) => (candidate.strength >= BLIND_STRENGTH ? [i] : []));
  const firstSec = candidates[strong[0] ?? 0]?.timeSec ?? 0;
  let guesses: Guess[] = [];
  for (const [order, i] of strong.entries()) {
    const sec = candidates[i]!.timeSec;
    const grown: Guess[] = [];
    const sound: Sound = { candidate: i, sec, weight: candidates[i]!.confidence, cycle, toldBeatSec: options.beatSec };
    for (const guess of guesses) heard(guess, sound, grown);
    if (order < 4 && sec - firstSec < options.beatSec) keep(begin(i, strong.slice(0, order), { candidates, cycle, options }), grown);
    guesses = best(grown);
  }
  const winner = guesses[0];
  return winner ? { score: winner.score, anchors: anchorsOf(winner.link) } : { score: 0, anchors: [] };
}

interface Setting {
  readonly candidates: readonly Candidate[];
  readonly cycle: EventCycle;
  readonly options: TrackingOptions;
}

function begin(candidate: number, skipped: readonly number[], { candidates, cycle, options }: Setting): Guess {
  const sec = candidates[candidate]!.timeSec;
  const event = options.firstEvent;
  const deviation = deviationSec(cycle, event, options.beatSec);
  const graces = gracesAmong(
    skipped.map((i) => candidates[i]!.timeSec),
    sec,
    cycle.events[event]!.graceCount,
  );
  const weightOf = (i: number) => candidates[i]!.confidence;
  const skippedWeight = skipped.reduce((sum, i) => sum + weightOf(i), 0);
  return {
    event,
    phaseSec: sec,
    beatSec: options.beatSec,
    phaseVar: deviation ** 2,
    crossVar: 0,
    beatVar: (options.beatShare * options.beatSec) ** 2,
    score: weightOf(candidate) - EXTRA_COST * (skippedWeight - graces),
    leftOut: [],
    link: { candidate, event, before: null },
  };
}

interface Sound {
  readonly candidate: number;
  readonly sec: number;
  /** How much it counts, 0 to 1. */
  readonly weight: number;
  readonly cycle: EventCycle;
  readonly toldBeatSec: number;
}

/** Adds what a guess becomes when a strong candidate is heard: left out, or taken for one of the events nearest to it. */
function heard(guess: Guess, sound: Sound, grown: Guess[]): void {
  keep(leftOutOf(guess, sound), grown);
  const next = nearestEvent(guess, sound.sec, sound.cycle);
  for (let event = Math.max(next - 1, guess.event + 1); event <= next + 1; event++) {
    const after = taken(guess, event, sound);
    if (after) keep(after, grown);
  }
}

const leftOutOf = (guess: Guess, { sec, weight }: Sound): Guess => ({
  event: guess.event,
  phaseSec: guess.phaseSec,
  beatSec: guess.beatSec,
  phaseVar: guess.phaseVar,
  crossVar: guess.crossVar,
  beatVar: guess.beatVar,
  score: guess.score - EXTRA_COST * weight,
  leftOut: [...guess.leftOut.slice(-2), sec],
  link: guess.link,
});

/** Keeps one guess per event that was heard last, the best. */
function keep(guess: Guess, grown: Guess[]): void {
  const at = grown.findIndex((other) => other.event === guess.event);
  if (at < 0) grown.push(guess);
  else if (guess.score > grown[at]!.score) grown[at] = guess;
}

function nearestEvent(guess: Guess, sec: number, cycle: EventCycle): number {
  const beat = beatOf(cycle, guess.event) + (sec - guess.phaseSec) / guess.beatSec;
  const count = cycle.events.length;
  let event = Math.max(guess.event, Math.floor(beat / cycle.lengthBeats) * count);
  while (beatOf(cycle, event + 1) <= beat) event += 1;
  return beat - beatOf(cycle, event) < beatOf(cycle, event + 1) - beat ? event : event + 1;
}

/** The guess after `event` was heard at `sec`: a Kalman step for phase and tempo. @source [Kalman1960] */
function taken(guess: Guess, event: number, { candidate, sec, weight, cycle, toldBeatSec }: Sound): Guess | null {
  const beats = beatOf(cycle, event) - beatOf(cycle, guess.event);
  const place = cycle.events[placeOf(cycle, event)]!;
  const offSec = sec - (guess.phaseSec + beats * guess.beatSec);
  if (Math.abs(offSec) > 0.5 * place.spaceBeats * guess.beatSec) return null;
  const beatVar = guess.beatVar + beats * (WANDER_SHARE * guess.beatSec) ** 2;
  const crossVar = guess.crossVar + beats * guess.beatVar;
  const phaseVar = guess.phaseVar + 2 * beats * guess.crossVar + beats * beats * guess.beatVar;
  const deviation = deviationSec(cycle, event, guess.beatSec);
  const variance = phaseVar + deviation ** 2;
  const z2 = offSec ** 2 / variance;
  const trust = z2 > 6 ? 6 / z2 : 1;
  const [phaseGain, beatGain] = [(trust * phaseVar) / variance, (trust * crossVar) / variance];
  const beatSec = guess.beatSec + beatGain * offSec;
  if (Math.abs(beatSec / toldBeatSec - 1) > FURTHEST_SHARE) return null;
  const graces = gracesAmong(guess.leftOut, sec, place.graceCount);
  return {
    event,
    phaseSec: guess.phaseSec + beats * guess.beatSec + phaseGain * offSec,
    beatSec,
    phaseVar: phaseVar * (1 - phaseGain),
    crossVar: crossVar * (1 - phaseGain),
    beatVar: beatVar - beatGain * crossVar,
    score: guess.score + weight * (1 - 0.35 * Math.min(z2, 5)) - MISSING_COST * Math.min(event - guess.event - 1, 8) + (EXTRA_COST + 0.3) * graces,
    leftOut: [],
    link: { candidate, event, before: guess.link },
  };
}

/** How far a stroke may lie off the grid, as a standard deviation: a share of the space around it, at most 15 ms. */
const deviationSec = (cycle: EventCycle, event: number, beatSec: number): number =>
  Math.min(0.015, 0.16 * cycle.events[placeOf(cycle, event)]!.spaceBeats * beatSec);

/** How many of the times left out can be graces of a main stroke at `sec`. */
function gracesAmong(timesSec: readonly number[], sec: number, graceCount: number): number {
  const near = timesSec.filter((time) => sec - time >= secOfMs(GRACE_MS.latest) && sec - time <= secOfMs(GRACE_MS.earliest));
  return Math.min(graceCount, near.length);
}

/** The best guesses, best first; those far behind will not come back. */
function best(guesses: Guess[]): Guess[] {
  guesses.sort((a, b) => b.score - a.score);
  const hopeless = (guesses[0]?.score ?? 0) - HOPELESS;
  return guesses.filter((guess, i) => i < GUESSES && guess.score > hopeless);
}

function anchorsOf(link: Link | null): Anchor[] {
  const anchors: Anchor[] = [];
  for (let at = link; at; at = at.before) anchors.push({ candidate: at.candidate, event: at.event });
  return anchors.reverse();
}
