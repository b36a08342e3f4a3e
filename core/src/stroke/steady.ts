/** Figures that are the same in every JavaScript engine: they differ among each other in the last bits of exp and log. */
import type { Candidate, DrumOdds } from './stroke.ts';

/** To nine digits after the point: a millionth of a millisecond, and far coarser than the differences between engines. */
const steady = (value: number): number => Math.round(value * 1e9) / 1e9;

const steadyOdds = ({ kick, tom, snare, pad, cymbal }: DrumOdds): DrumOdds => ({
  kick: steady(kick),
  tom: steady(tom),
  snare: steady(snare),
  pad: steady(pad),
  cymbal: steady(cymbal),
});

/** A candidate as it is told. */
export const steadyCandidate = ({ timeSec, strength, volumeDb, confidence, drumOdds }: Candidate): Candidate => ({
  timeSec: steady(timeSec),
  strength: steady(strength),
  volumeDb: steady(volumeDb),
  confidence: steady(confidence),
  drumOdds: steadyOdds(drumOdds),
});
