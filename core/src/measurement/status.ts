/** A stroke that was not found: left out by the player, or too masked to tell. */

import { quantile } from '../quantiles.ts';
import type { Candidate } from '../stroke/index.ts';
import { type EventCycle, placeOf } from './events.ts';
import type { MatchedEvent } from './matching.ts';
import { normalShare } from './normal.ts';
import { AROUND_EMPTY, AROUND_HIDDEN, HIDDEN_FLOOR, MATCH_COST, MISSED_SHARE, QUIET_ODDS } from './parameters.ts';
import type { PlaceModel } from './placemodel.ts';
import type { Quietness } from './quietness.ts';

export interface Absence {
  readonly status: 'missed' | 'notAudible';
  /** How sure the status is, 0.5 to 1. */
  readonly confidence: number;
}

/**
 * Per place of the cycle, the chance that a stroke played there is not found: from how surely those were heard that
 * were found. Strokes not found count as the least sure, so that the middle and the upper part of the row tell.
 */
export function hiddenShares(events: readonly MatchedEvent[], candidates: readonly Candidate[], cycle: EventCycle): number[] {
  const gate = -MATCH_COST.missing;
  const sureness: number[][] = cycle.events.map(() => []);
  for (const { event, candidate } of events) {
    sureness[placeOf(cycle, event)]!.push(candidate < 0 ? gate : Math.max(gate, logOdds(candidates[candidate]!.confidence)));
  }
  return sureness.map((row) => {
    const middle = quantile(row, 0.5);
    const deviation = Math.max(0.5, quantile(row, 0.84) - middle);
    return normalShare((gate - middle) / deviation);
  });
}

const logOdds = (share: number): number => Math.log(share / (1 - share));

/** What is known about an event for which nothing was heard. */
interface Surroundings {
  readonly candidates: readonly Candidate[];
  /** Chance that a stroke played at this place is not found. */
  readonly hidden: number;
  /** How quiet it was; null when the ear did not tell or too few cycles are known. */
  readonly quietness: Quietness | null;
}

/**
 * Judges an event for which nothing was heard. A stroke that was played all the same must be one of those not found, and
 * what sounds at its moment is then about as loud as ever at its place; where it is far softer, it was left out.
 */
export function judgeAbsence(event: MatchedEvent, model: PlaceModel, { candidates, hidden, quietness }: Surroundings): Absence {
  const aroundDb = Math.max(...nearby(event, candidates).map(({ volumeDb }) => volumeDb));
  const known = quietness !== null || (model.volume !== null && Number.isFinite(aroundDb));
  const odds = quietness ? quietOdds(quietness) : known ? emptyOdds(aroundDb - model.volume!.medianDb) : 1;
  const left = MISSED_SHARE * odds;
  const missed = left / (left + (1 - MISSED_SHARE) * Math.max(known ? HIDDEN_FLOOR.known : HIDDEN_FLOOR.unknown, hidden));
  return missed >= 0.5 ? { status: 'missed', confidence: missed } : { status: 'notAudible', confidence: 1 - missed };
}

/** How many times likelier such quiet is where nothing was played than where a stroke was not found. */
function quietOdds({ spreads, stepDb }: Quietness): number {
  const least = Math.min(spreads, (stepDb ?? 0) / QUIET_ODDS.spreadDb);
  return Math.exp(Math.min(QUIET_ODDS.most, QUIET_ODDS.perSpread * (QUIET_ODDS.evenSpreads - least)));
}

/** How many times likelier a volume, told against the usual one of the place, is where nothing was played than where a stroke was not found. */
function emptyOdds(stepDb: number): number {
  const density = ({ meanDb, spreadDb }: typeof AROUND_EMPTY | typeof AROUND_HIDDEN) =>
    Math.exp(-0.5 * ((Math.min(stepDb, AROUND_HIDDEN.meanDb) - meanDb) / spreadDb) ** 2) / spreadDb;
  return density(AROUND_EMPTY) / density(AROUND_HIDDEN);
}

/** Candidates within the window of an event. */
function nearby(event: MatchedEvent, candidates: readonly Candidate[]): Candidate[] {
  const near: Candidate[] = [];
  for (let i = firstFrom(candidates, event.gridSec - event.windowSec); i < candidates.length; i++) {
    if (candidates[i]!.timeSec > event.gridSec + event.windowSec) break;
    near.push(candidates[i]!);
  }
  return near;
}

/** Index of the first candidate at or after `sec`. */
function firstFrom(candidates: readonly Candidate[], sec: number): number {
  let [low, high] = [0, candidates.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (candidates[middle]!.timeSec < sec) low = middle + 1;
    else high = middle;
  }
  return low;
}
