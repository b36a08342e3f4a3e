/** The exact time of a stroke: where a filter that predicts what rang before stops predicting. */
import { autocorrelation, levinsonDurbin, predictionError } from '../signal/index.ts';
import type { Take } from '../take/index.ts';
import * as P from './parameters.ts';
import type { Candidate } from './stroke.ts';
import { volumeDb } from './volume.ts';

/** A refined onset. `gain` is how many nats the change explains per sample pair: large means certain. */
export interface Refined {
  readonly timeSec: number;
  readonly gain: number;
}

/** Refines a coarse onset time against the samples around it (mono, `sampleRateHz`); keeps the coarse one where the two disagree. */
export const refineOnset = (samples: Float32Array, sampleRateHz: number, coarseSec: number): Refined => {
  const coarse = Math.round(coarseSec * sampleRateHz);
  const frames = (sec: number) => Math.round(sec * sampleRateHz);
  const trainTo = coarse - frames(P.PREDICT_GAP_SEC);
  const trainFrom = Math.max(0, trainTo - frames(P.PREDICT_SEC));
  const from = Math.max(0, coarse - frames(P.REFINE_BEFORE_SEC));
  const to = Math.min(samples.length, coarse + frames(P.REFINE_AFTER_SEC));
  if (to - from < 8) return { timeSec: coarseSec, gain: 0 };
  const error = residual(samples, { trainFrom, trainTo, from, to });
  const { at, gain } = varianceChange(error);
  const timeSec = (from + at) / sampleRateHz;
  return Math.abs(timeSec - coarseSec) <= P.REFINE_TRUST_SEC ? { timeSec, gain } : { timeSec: coarseSec, gain: 0 };
};

const residual = (samples: Float32Array, span: { trainFrom: number; trainTo: number; from: number; to: number }): Float64Array => {
  const out = new Float64Array(span.to - span.from);
  let filter = new Float64Array([1]);
  if (span.trainTo - span.trainFrom > 4 * P.PREDICT_ORDER) {
    const lags = autocorrelation(samples.subarray(span.trainFrom, span.trainTo), P.PREDICT_ORDER);
    lags[0] = lags[0]! * (1 + 1e-5) + 1e-12;
    filter = levinsonDurbin(lags) as Float64Array<ArrayBuffer>;
  }
  predictionError(samples, filter, { from: span.from, to: span.to, out });
  return out;
};

/** The index before which and from which the variances of `error` differ most, by likelihood; and that likelihood's gain in nats per sample. */
export const varianceChange = (error: Float64Array): { at: number; gain: number } => {
  const n = error.length;
  const sums = new Float64Array(n + 1);
  for (let i = 0; i < n; i++) sums[i + 1] = sums[i]! + error[i]! * error[i]! + 1e-14;
  const total = sums[n]!;
  const edge = Math.max(4, n >> 5);
  let at = 0;
  let best = 0;
  const whole = n * Math.log(total / n);
  for (let k = edge; k <= n - edge; k++) {
    const before = sums[k]! / k;
    const after = (total - sums[k]!) / (n - k);
    if (after <= before) continue;
    const gain = whole - k * Math.log(before) - (n - k) * Math.log(after);
    if (gain > best) {
      best = gain;
      at = k;
    }
  }
  return { at: best > 0 ? at : n >> 1, gain: best / (2 * n) };
};

/** A candidate with its time refined anew against the take, for a time that was guessed (a missing stroke's expected time, a dragged marker). */
export const refine = (take: Take, candidate: Candidate): Candidate => {
  const { timeSec } = refineOnset(take.samples, take.clock.sampleRateHz, candidate.timeSec);
  return { ...candidate, timeSec, volumeDb: volumeDb(take.samples, take.clock.sampleRateHz, timeSec) };
};
