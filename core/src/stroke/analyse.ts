/** From sound and its spectra to possible strokes, none of them judged yet. */
import { localMaxima, parabolaPeak } from '../signal/index.ts';
import { noiseFloors, noveltyCurve, type Spectra } from './novelty.ts';
import * as P from './parameters.ts';
import { refineOnset } from './refine.ts';
import { type Evidence, explain } from './sounds.ts';
import { volumeDb } from './volume.ts';

/** A stretch of sound with its band powers, click bleed taken out of both. Times count from its first sample. */
export interface Stretch {
  readonly samples: Float32Array;
  readonly spectra: Spectra;
  readonly hopSamples: number;
  readonly sampleRateHz: number;
}

/** What is known of a possible stroke before the whole take has been seen. */
export interface RawCandidate extends Evidence {
  readonly timeSec: number;
  /** Height of the novelty curve at its peak. */
  readonly height: number;
  /** How surely the sound changes at this very sample, see refine.ts. */
  readonly gain: number;
  readonly volumeDb: number;
  /** Band powers just after the onset, for the kind of drum. */
  readonly shape: Float32Array;
}

interface Peak {
  readonly timeSec: number;
  readonly height: number;
  readonly gain: number;
}

/** All candidates of a stretch in rising time. */
export const analyse = (stretch: Stretch): RawCandidate[] => {
  const { spectra, samples, sampleRateHz, hopSamples } = stretch;
  const floors = noiseFloors(spectra);
  const peaks = onePerSound(refinedPeaks(stretch, noveltyCurve(spectra, floors)));
  const frameOf = (timeSec: number) => (timeSec * sampleRateHz) / hopSamples;
  const evidence = explain(
    spectra,
    floors,
    peaks.map(({ timeSec, height }) => ({ frame: frameOf(timeSec), height })),
  );
  return peaks.map((peak, i) => {
    const row = Math.min(spectra.frameCount - 1, Math.round(frameOf(peak.timeSec)) + 4) * spectra.bandCount;
    const shape = spectra.powers.slice(row, row + spectra.bandCount);
    return { ...peak, ...evidence[i]!, volumeDb: volumeDb(samples, sampleRateHz, peak.timeSec), shape };
  });
};

const refinedPeaks = ({ samples, sampleRateHz, hopSamples }: Stretch, curve: Float32Array): Peak[] =>
  localMaxima(curve, P.CANDIDATE_FLOOR, P.PEAK_REACH_FRAMES)
    .map((frame) => {
      const { offset, height } = parabolaPeak(curve[frame - 1] ?? 0, curve[frame]!, curve[frame + 1] ?? 0);
      return { ...refineOnset(samples, sampleRateHz, ((frame + offset) * hopSamples) / sampleRateHz), height };
    })
    .sort((a, b) => a.timeSec - b.timeSec);

/** Many sounds have a second bump some 8 ms after their first: the later of two near peaks goes unless it is far higher. */
const onePerSound = (peaks: readonly Peak[]): Peak[] =>
  peaks.filter((peak, i) => {
    for (let k = i - 1; k >= 0 && peak.timeSec - peaks[k]!.timeSec <= P.SAME_SOUND_SEC; k--) {
      if (peaks[k]!.height >= P.SAME_SOUND_SHARE * peak.height || peaks[k]!.timeSec === peak.timeSec) return false;
    }
    return true;
  });
