/** What makes a measurement doubtful: a tempo far from the told one, a sticking that does not fit, too few cycles. */
import type { Candidate } from '../stroke/index.ts';
import type { EventCycle } from './events.ts';
import type { Measurement, MeasurementProblem } from './measurement.ts';
import { BLIND_STRENGTH, FAR_TEMPO_SHARE, FEW_CYCLES, FIT } from './parameters.ts';

/** Doubts about a measurement, none when it can be trusted. */
export function doubtsOf(measurement: Measurement, candidates: readonly Candidate[], cycle: EventCycle): MeasurementProblem[] {
  return [...tempoDoubt(measurement), ...stickingDoubt(measurement, candidates, cycle), ...cyclesDoubt(measurement)];
}

function tempoDoubt({ tempoBpm, trackedBpm }: Measurement): MeasurementProblem[] {
  const off = Math.abs(trackedBpm / tempoBpm - 1);
  return off > FAR_TEMPO_SHARE ? [{ code: 'tempo-far-from-told', severity: 'doubtful', params: { tempoBpm, trackedBpm } }] : [];
}

function stickingDoubt({ strokes, extra }: Measurement, candidates: readonly Candidate[], cycle: EventCycle): MeasurementProblem[] {
  const matchedShare = strokes.filter(({ status }) => status === 'played').length / strokes.length;
  const strong = candidates.filter(({ strength }) => strength >= BLIND_STRENGTH).length;
  const extraShare = extra.length / strong;
  const fits = matchedShare >= FIT.matchedShare && extraShare <= FIT.extraShare && cycle.events.length > 0;
  return fits ? [] : [{ code: 'sticking-does-not-fit', severity: 'doubtful', params: { matchedShare, extraShare } }];
}

function cyclesDoubt({ strokes }: Measurement): MeasurementProblem[] {
  const cycleCount = new Set(strokes.map(({ cycle }) => cycle)).size;
  return cycleCount < FEW_CYCLES ? [{ code: 'too-few-cycles', severity: 'doubtful', params: { cycleCount } }] : [];
}
