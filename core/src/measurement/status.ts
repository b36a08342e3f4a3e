/** A stroke that was not found: left out by the player, or too masked to tell. */

import type { Candidate } from '../stroke/index.ts';
import type { MatchedEvent } from './matching.ts';
import { normalShare } from './normal.ts';
import { AUDIBLE_MARGIN_DB, MISSED_SHARE } from './parameters.ts';
import type { PlaceModel } from './placemodel.ts';

export interface Absence {
  readonly status: 'missed' | 'notAudible';
  /** How sure the status is, 0.5 to 1. */
  readonly confidence: number;
}

/**
 * Judges an event for which nothing was heard. Two things speak for "too masked": strokes of this place are seldom far
 * above the gate, and what sounds at that moment is as loud as they are.
 */
export function judgeAbsence(event: MatchedEvent, model: PlaceModel, heard: { candidates: readonly Candidate[]; gate: number }): Absence {
  const underGate = model.strength ? normalShare((Math.log(heard.gate) - model.strength.meanLog) / model.strength.deviationLog) : 0.5;
  const masked = model.volume ? maskedShare(event, model.volume.medianDb, heard.candidates) : 0;
  const hidden = Math.max(underGate, masked);
  const missedOdds = MISSED_SHARE / (MISSED_SHARE + (1 - MISSED_SHARE) * hidden);
  return missedOdds >= 0.5 ? { status: 'missed', confidence: missedOdds } : { status: 'notAudible', confidence: 1 - missedOdds };
}

/** Chance that a stroke of its usual volume would drown in what the ear reads around its moment. */
function maskedShare(event: MatchedEvent, usualDb: number, candidates: readonly Candidate[]): number {
  const near: Candidate[] = [];
  for (let i = firstFrom(candidates, event.centreSec - event.windowSec); i < candidates.length; i++) {
    if (candidates[i]!.timeSec > event.centreSec + event.windowSec) break;
    near.push(candidates[i]!);
  }
  if (near.length === 0) return 0;
  const aroundDb = Math.min(...near.map(({ volumeDb }) => volumeDb));
  return usualDb < aroundDb + AUDIBLE_MARGIN_DB ? 0.5 : 0;
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
