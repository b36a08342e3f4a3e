/** Sees the whole take: which candidates stand out enough to be strokes, how sure their times are, and on what drum they were. */
import type { RawCandidate } from './analyse.ts';
import { drumOddsOf, drumOf } from './drum.ts';
import * as P from './parameters.ts';
import type { Candidate, Stroke } from './stroke.ts';

/** Judges the raw candidates of a take (rising time). */
export const judge = (raw: readonly RawCandidate[]): { candidates: Candidate[]; strokes: Stroke[] } => {
  const threshold = P.THRESHOLD;
  const candidates = raw.map((candidate) => ({
    timeSec: candidate.timeSec,
    strength: candidate.height / threshold,
    volumeDb: candidate.volumeDb,
    confidence: confidenceOf(candidate.height / threshold, candidate.gain),
    drumOdds: drumOddsOf(candidate.shape),
  }));
  return { candidates, strokes: candidates.filter((c) => c.strength >= 1).map(strokeOf) };
};

const strokeOf = (candidate: Candidate): Stroke => ({
  timeSec: candidate.timeSec,
  levelDb: candidate.volumeDb,
  confidence: candidate.confidence,
  drum: drumOf(candidate.drumOdds),
});

const confidenceOf = (strength: number, gain: number): number => 1 / (1 + Math.exp(-(3 * (strength - 1) + gain)));
