/** Sees the whole take: which candidates stand out enough to be strokes, how sure their times are, and on what drum they were. */
import type { RawCandidate } from './analyse.ts';
import { drumOddsOf, drumOf } from './drum.ts';
import { type Found, foundAt } from './found.ts';
import * as P from './parameters.ts';
import { steadyCandidate } from './steady.ts';
import type { Candidate, Stroke } from './stroke.ts';

/** Judges the raw candidates of a take. */
export const judge = (found: Found): { candidates: Candidate[]; strokes: Stroke[] } => {
  const rows = Array.from({ length: found.count }, (_, i) => i);
  const nearPlain = nearPlainStrokes(found);
  const probabilities = withShareOfTake(rows.map((i) => oddsOf(foundAt(found, i)))).map((probability, i) => {
    const candidate = foundAt(found, i);
    if (candidate.height >= P.PLAIN_HEIGHT) return Math.max(probability, P.PLAIN_PROBABILITY);
    const hidden = !nearPlain[i] || candidate.standing < P.STANDING_MOST || candidate.volumeRiseDb < P.HISS_VOLUME_RISE_DB;
    return couldBeHiss(candidate) && hidden ? Math.min(probability, P.HISS_PROBABILITY) : probability;
  });
  const told = rows.filter((i) => calibrated(probabilities[i]!) >= P.CONFIDENCE_LEAST);
  const candidates = told.map((i) => {
    const { timeSec, volumeDb, energyPlace } = foundAt(found, i);
    return steadyCandidate({
      timeSec,
      strength: probabilities[i]! / P.STROKE_PROBABILITY,
      volumeDb,
      confidence: calibrated(probabilities[i]!),
      drumOdds: drumOddsOf(energyPlace),
    });
  });
  return { candidates, strokes: candidates.filter((c) => c.strength >= 1).map(strokeOf) };
};

/** What such a probability has meant on takes left out of the learning: the odds are too modest near even. */
export const calibrated = (probability: number): number => {
  const odds = Math.log(probability / (1 - probability));
  return 1 / (1 + Math.exp(-P.CALIBRATION.slope * odds - P.CALIBRATION.shift));
};

/** Hiss alone throws up such peaks now and then: after nothing but noise, and no higher than chance makes them. */
const couldBeHiss = ({ tail, height }: RawCandidate): boolean => tail < P.HISS_TAIL && height < P.HISS_HEIGHT;

/**
 * Which candidates lie near one too high for hiss: where somebody plays, a soft stroke is likelier than a whim of the noise. Just before
 * such a one it is not: there the windows hear the coming stroke already.
 */
const nearPlainStrokes = (found: Found): boolean[] => {
  const near = new Array<boolean>(found.count).fill(false);
  const sweep = (order: readonly number[], fromSec: number) => {
    let plainSec = Number.NaN;
    for (const i of order) {
      const { timeSec, height } = foundAt(found, i);
      const gapSec = Math.abs(timeSec - plainSec);
      if (gapSec >= fromSec && gapSec < P.HISS_REACH_SEC) near[i] = true;
      if (height >= P.HISS_HEIGHT) plainSec = timeSec;
    }
  };
  const forward = Array.from({ length: found.count }, (_, i) => i);
  sweep(forward, 0);
  sweep(forward.reverse(), P.HISS_PRE_ECHO_SEC);
  return near;
};

/** What a candidate's odds are made of, each on a scale where a step means about the same at any loudness. */
export const featuresOf = ({ fit, rise, tail, height, surprise, standing }: RawCandidate) => ({
  surprise,
  standing: Math.min(P.STANDING_MOST, standing),
  fit: Math.sign(fit) * Math.log1p(Math.abs(fit)),
  rise: Math.log(Math.max(0, rise) + 0.1),
  tail,
  height: Math.log(Math.max(P.CANDIDATE_FLOOR, height)),
});

/** Log odds of being a stroke timed within 5 ms, in a take of the usual share of strokes among candidates. */
const oddsOf = (candidate: RawCandidate): number => {
  const features = featuresOf(candidate);
  return (
    P.ODDS.constant +
    P.ODDS.surprise * features.surprise +
    P.ODDS.standing * features.standing +
    P.ODDS.fit * features.fit +
    P.ODDS.rise * features.rise +
    P.ODDS.tail * features.tail +
    P.ODDS.height * features.height
  );
};

/**
 * Probabilities from log odds, the share of strokes among the candidates learnt from the take itself: where most candidates are plainly
 * strokes, the rest are likelier ones too. Expectation maximisation on the prior. @source [Saerens2002]
 */
export const withShareOfTake = (logOdds: readonly number[]): number[] => {
  let share: number = P.STROKE_SHARE;
  let probabilities: number[] = [];
  for (let round = 0; round < 100; round++) {
    const shift = Math.log((share / (1 - share)) * ((1 - P.STROKE_SHARE) / P.STROKE_SHARE));
    probabilities = logOdds.map((odds) => 1 / (1 + Math.exp(-odds - shift)));
    const sum = probabilities.reduce((a, b) => a + b, 0);
    const next = Math.min(P.STROKE_SHARE_MOST, (sum + P.STROKE_SHARE_WEIGHT * P.STROKE_SHARE) / (logOdds.length + P.STROKE_SHARE_WEIGHT));
    if (Math.abs(next - share) < 1e-6) break;
    share = next;
  }
  return probabilities;
};

const strokeOf = (candidate: Candidate): Stroke => ({
  timeSec: candidate.timeSec,
  levelDb: candidate.volumeDb,
  confidence: candidate.confidence,
  drum: drumOf(candidate.drumOdds),
});
