/** From sound and its spectra to possible strokes, none of them judged yet. */
import { localMaxima, parabolaPeak } from '../signal/index.ts';
import { logEnergies, noiseFloors, noveltyCurve, type Spectra } from './novelty.ts';
import * as P from './parameters.ts';
import { refineOnset } from './refine.ts';
import { volumeDb } from './volume.ts';

/** A stretch of sound with its band powers. Times count from its first sample. */
export interface Stretch {
  readonly samples: Float32Array;
  readonly spectra: Spectra;
  readonly centresHz: Float64Array;
  readonly hopSamples: number;
  readonly sampleRateHz: number;
  readonly clickTimesSec: readonly number[];
}

/** What is known of a possible stroke before the whole take has been seen. */
export interface RawCandidate {
  readonly timeSec: number;
  /** Height of the novelty curve at its peak. */
  readonly height: number;
  /** How surely the sound changes at this very sample, see refine.ts. */
  readonly gain: number;
  readonly volumeDb: number;
  /** Rise of log energy per band, for the kind of drum. */
  readonly shape: Float32Array;
}

/** All candidates of a stretch in rising time. */
export const analyse = (stretch: Stretch): RawCandidate[] => {
  const { spectra, samples, sampleRateHz, hopSamples } = stretch;
  const logs = logEnergies(spectra, noiseFloors(spectra), P.FLOOR_GAIN);
  const curve = noveltyCurve(logs, spectra.frameCount, spectra.bandCount);
  return localMaxima(curve, P.CANDIDATE_FLOOR, P.PEAK_REACH_FRAMES)
    .map((frame) => {
      const { offset, height } = parabolaPeak(curve[frame - 1] ?? 0, curve[frame]!, curve[frame + 1] ?? 0);
      const refined = refineOnset(samples, sampleRateHz, ((frame + offset) * hopSamples) / sampleRateHz);
      const shape = spectra.powers.slice((frame + 3) * spectra.bandCount, (frame + 4) * spectra.bandCount);
      return { ...refined, height, volumeDb: volumeDb(samples, sampleRateHz, refined.timeSec), shape };
    })
    .sort((a, b) => a.timeSec - b.timeSec);
};
