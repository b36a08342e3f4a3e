/** The exact time of a stroke: where a filter that predicts what rang before stops predicting. */
import { autocorrelation, levinsonDurbin, predictionError } from '../signal/index.ts';
import type { Take } from '../take/index.ts';
import { onsetFrame } from './onset.ts';
import * as P from './parameters.ts';
import type { Candidate } from './stroke.ts';
import { volumeDb } from './volume.ts';

/** A refined onset. `gain` is the log likelihood (nats) that a change at this sample has over none. */
export interface Refined {
  readonly timeSec: number;
  readonly gain: number;
}

/** A candidate with its time refined anew against the take, for a time that was guessed (a missing stroke's expected time, a dragged marker). */
export const refine = (take: Take, candidate: Candidate): Candidate => {
  const { sampleRateHz } = take.clock;
  const { timeSec } = refineOnset(take.samples, sampleRateHz, candidate.timeSec - P.REFINE_PRIOR_SEC);
  return { ...candidate, timeSec, volumeDb: volumeDb(take.samples, sampleRateHz, timeSec) };
};

/**
 * Refines a coarse onset time (peak of the novelty) against the samples around it: the change point of the prediction error's variance,
 * weighed against where onsets usually lie under such a peak. Without enough sound before, that usual place is given.
 */
export const refineOnset = (samples: Float32Array, sampleRateHz: number, coarseSec: number): Refined => {
  const coarse = Math.round(coarseSec * sampleRateHz);
  const frames = (sec: number) => Math.round(sec * sampleRateHz);
  const trainTo = coarse - frames(P.PREDICT_GAP_SEC);
  const span = {
    trainFrom: Math.max(0, trainTo - frames(P.PREDICT_SEC)),
    trainTo,
    from: Math.max(0, coarse - frames(P.REFINE_BEFORE_SEC)),
    to: Math.min(samples.length, coarse + frames(P.REFINE_AFTER_SEC)),
  };
  const usual = Math.max(0, coarseSec + P.REFINE_PRIOR_SEC);
  if (span.to - span.from < 16) return { timeSec: usual, gain: 0 };
  const { at, gain } = varianceChange(residual(samples, span), {
    usualAt: usual * sampleRateHz - span.from,
    sd: P.REFINE_PRIOR_SD_SEC * sampleRateHz,
    edge: Math.max(3, frames(0.0009)),
  });
  return at === null ? { timeSec: usual, gain: 0 } : { timeSec: onsetFrame(samples, sampleRateHz, span.from + at) / sampleRateHz, gain };
};

const residual = (samples: Float32Array, span: { trainFrom: number; trainTo: number; from: number; to: number }): Float64Array => {
  const out = new Float64Array(span.to - span.from);
  predictionError(samples, predictor(samples, span.trainFrom, span.trainTo), { from: span.from, to: span.to, out });
  return out;
};

/** The filter learnt from `samples[from, to)`; too few samples give the one that changes nothing. A touch of white noise keeps it tame. */
const predictor = (samples: Float32Array, from: number, to: number): Float64Array => {
  if (to - from < 4 * P.PREDICT_ORDER) return Float64Array.of(1);
  const lags = autocorrelation(samples.subarray(from, to), P.PREDICT_ORDER);
  lags[0] = lags[0]! * (1 + 1e-5) + 1e-12;
  return levinsonDurbin(lags);
};

/** What is believed of the change beforehand: about where, how surely; and how many samples either side must hold. */
export interface ChangePrior {
  readonly usualAt: number;
  readonly sd: number;
  readonly edge: number;
}

/** The likeliest index from which the variance of `error` is higher than before it, null when it nowhere is, and its log likelihood gain. */
const varianceChange = (error: Float64Array, { usualAt, sd, edge }: ChangePrior): { at: number | null; gain: number } => {
  const n = error.length;
  const sums = new Float64Array(n + 1);
  for (let i = 0; i < n; i++) sums[i + 1] = sums[i]! + error[i]! * error[i]! + 1e-14;
  const total = sums[n]!;
  const whole = n * Math.log(total / n);
  let at: number | null = null;
  let best = Number.NEGATIVE_INFINITY;
  let gainAt = 0;
  for (let k = edge; k <= n - edge; k++) {
    const before = sums[k]! / k;
    const after = (total - sums[k]!) / (n - k);
    if (after <= before) continue;
    const gain = 0.5 * (whole - k * Math.log(before) - (n - k) * Math.log(after));
    const posterior = P.REFINE_SAMPLE_WEIGHT * gain - 0.5 * ((k - usualAt) / sd) ** 2;
    if (posterior > best) {
      best = posterior;
      at = k;
      gainAt = gain;
    }
  }
  return { at, gain: gainAt };
};
