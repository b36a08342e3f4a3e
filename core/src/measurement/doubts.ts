/** What makes a measurement doubtful: a tempo far from the told one, a sticking that does not fit, too few cycles. */
import { gcd } from '../rational.ts';
import type { Candidate } from '../stroke/index.ts';
import { beatOf, type EventCycle, placeOf } from './events.ts';
import type { Measurement, MeasurementProblem } from './measurement.ts';
import { BLIND_STRENGTH, FAR_TEMPO_SHARE, FEW_CYCLES, FIT } from './parameters.ts';
import { mean } from './statistics.ts';
import type { Anchor } from './tracking.ts';

/** What was matched, for looking at how well the sticking explains it. */
export interface Evidence {
  readonly candidates: readonly Candidate[];
  readonly cycle: EventCycle;
  readonly anchors: readonly Anchor[];
}

/** Doubts about a measurement, none when it can be trusted. */
export function doubtsOf(measurement: Measurement, evidence: Evidence): MeasurementProblem[] {
  return [...tempoDoubt(measurement), ...stickingDoubt(measurement, evidence), ...cyclesDoubt(measurement)];
}

function tempoDoubt({ tempoBpm, trackedBpm }: Measurement): MeasurementProblem[] {
  const off = Math.abs(trackedBpm / tempoBpm - 1);
  return off > FAR_TEMPO_SHARE ? [{ code: 'tempo-far-from-told', severity: 'doubtful', params: { tempoBpm, trackedBpm } }] : [];
}

function stickingDoubt({ strokes, extra }: Measurement, evidence: Evidence): MeasurementProblem[] {
  const matchedShare = strokes.filter(({ status }) => status === 'played').length / strokes.length;
  const extraShare = extra.length / evidence.candidates.filter(({ strength }) => strength >= BLIND_STRENGTH).length;
  if (matchedShare < FIT.matchedShare || extraShare > FIT.extraShare) {
    return [{ code: 'sticking-does-not-fit', severity: 'doubtful', params: { matchedShare, extraShare } }];
  }
  if (kicksElsewhere(evidence)) return [{ code: 'sticking-drums-elsewhere', severity: 'doubtful', params: {} }];
  const slots = betterCycle(evidence);
  return slots === null ? [] : [{ code: 'sticking-repeats-otherwise', severity: 'doubtful', params: { slotCount: slots } }];
}

/** Kicks are written and heard, but not in the same places. */
function kicksElsewhere({ candidates, cycle, anchors }: Evidence): boolean {
  const written = cycle.events.map(({ kick, hand }) => (kick && !hand ? 1 : kick ? null : 0));
  if (!written.includes(1) || !written.includes(0)) return false;
  const odds = cycle.events.map((_, place) => {
    const here = anchors.filter(({ event }) => placeOf(cycle, event) === place);
    return here.length > 0 ? mean(here.map(({ candidate }) => candidates[candidate]!.drumOdds.kick)) : null;
  });
  const heard = odds.flatMap((value) => (value === null ? [] : [value]));
  const [low, high] = [Math.min(...heard), Math.max(...heard)];
  if (high - low < FIT.kickContrast) return false;
  const against = odds.filter((value, place) => value !== null && written[place] !== null && (value > (low + high) / 2 ? 1 : 0) !== written[place]);
  return against.length > FIT.kickPlaces * heard.length;
}

/** A length of cycle, in slots, after which volume or drums repeat far better than after the one written, and can be heard to; null when there is none. */
function betterCycle(evidence: Evidence): number | null {
  const { candidates, cycle, anchors } = evidence;
  const slotBeats = Math.min(...cycle.events.map(({ spaceBeats }) => spaceBeats));
  const slots = anchors.map(({ event }) => Math.round(beatOf(cycle, event) / slotBeats));
  const written = Math.round(cycle.lengthBeats / slotBeats);
  const heard = [
    { values: anchors.map(({ candidate }) => candidates[candidate]!.volumeDb), contrast: FIT.volumeContrastDb },
    { values: anchors.map(({ candidate }) => candidates[candidate]!.drumOdds.kick), contrast: FIT.kickContrast },
  ];
  let best: number | null = null;
  let bestGain: number = FIT.cycleGain;
  for (let length = 2; length <= Math.min(FIT.longestCycle, anchors.length / 5); length++) {
    if (length % written === 0) continue;
    // What both have in common speaks for neither: an exercise in which the phrase comes again and again repeats as written.
    const known = [written, gcd(length, written)];
    const gains = heard.map(({ values, contrast }) => {
      const { share, spread } = repeated(values, slots, length);
      return spread < contrast ? 0 : share - Math.max(0, ...known.map((common) => repeated(values, slots, common).share));
    });
    const gain = Math.max(...gains);
    if (gain <= bestGain) continue;
    best = length;
    bestGain = gain;
  }
  return best;
}

/**
 * How far what is heard repeats after `length` slots: the share of the variance that the other cycles foretell of each (below zero when they
 * mislead: chance foretells nothing, however many places it is spread over), and how far the means of the places lie apart.
 */
function repeated(values: readonly number[], slots: readonly number[], length: number): { readonly share: number; readonly spread: number } {
  const sums = new Float64Array(length);
  const counts = new Float64Array(length);
  values.forEach((value, i) => {
    sums[slots[i]! % length]! += value;
    counts[slots[i]! % length]! += 1;
  });
  const count = values.length;
  const sum = count * mean(values);
  let [off, total] = [0, 0];
  values.forEach((value, i) => {
    const others = counts[slots[i]! % length]! - 1;
    const otherwise = (sum - value) / (count - 1);
    off += (value - (others > 0 ? (sums[slots[i]! % length]! - value) / others : otherwise)) ** 2;
    total += (value - otherwise) ** 2;
  });
  const means = Array.from(sums, (each, place) => each / counts[place]!).filter((each) => !Number.isNaN(each));
  return { share: total < 1e-9 ? 0 : 1 - off / total, spread: Math.max(...means) - Math.min(...means) };
}

/** Whether all that is measured is too little to judge by. */
export function cyclesDoubt({ strokes }: Measurement): MeasurementProblem[] {
  const cycleCount = new Set(strokes.map(({ cycle }) => cycle)).size;
  return cycleCount < FEW_CYCLES ? [{ code: 'too-few-cycles', severity: 'doubtful', params: { cycleCount } }] : [];
}
