/** From sound and its spectra to possible strokes, none of them judged yet. */
import { localMaxima, parabolaPeak } from '../signal/index.ts';
import { energyPlace } from './drum.ts';
import { noiseFloors, noveltyCurve, type Spectra } from './novelty.ts';
import * as P from './parameters.ts';
import { refineOnset } from './refine.ts';
import { type Evidence, explain } from './sounds.ts';
import { surpriseOf } from './surprise.ts';
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
  /** How far the low sound departs from what rang before, over its usual departure and over the noise, see surprise.ts. */
  readonly surprise: number;
  readonly standing: number;
  readonly volumeDb: number;
  /** How much louder the 20 ms after the onset are than those before it, dB. */
  readonly volumeRiseDb: number;
  /** Where its energy lies just after the onset, for the kind of drum: see drum.ts. */
  readonly energyPlace: number;
}

interface Peak {
  readonly timeSec: number;
  readonly height: number;
}

/** All candidates of a stretch in rising time. */
export const analyse = (stretch: Stretch): RawCandidate[] => {
  const { spectra, samples, sampleRateHz, hopSamples } = stretch;
  const floors = noiseFloors(spectra);
  const surprise = surpriseOf(samples, { sampleRateHz, hopSamples, frameCount: spectra.frameCount });
  const peaks = peaksOf(stretch, noveltyCurve(spectra, floors), surprise.rises);
  const frameOf = (timeSec: number) => (timeSec * sampleRateHz) / hopSamples;
  const evidence = explain(
    spectra,
    floors,
    peaks.map(({ timeSec, height }) => ({ frame: frameOf(timeSec), height })),
  );
  return peaks.map((peak, i) => {
    const row = Math.min(spectra.frameCount - 1, Math.round(frameOf(peak.timeSec)) + 4) * spectra.bandCount;
    const surprised = frameOf(peak.timeSec) + P.SURPRISE_LAG_FRAMES;
    const loudDb = volumeDb(samples, sampleRateHz, peak.timeSec);
    return {
      ...peak,
      ...evidence[i]!,
      surprise: highest(surprise.rises, surprised),
      standing: highest(surprise.heights, surprised),
      volumeDb: loudDb,
      volumeRiseDb: loudDb - volumeDb(samples, sampleRateHz, peak.timeSec - P.VOLUME_SEC),
      energyPlace: energyPlace(spectra.powers.subarray(row, row + spectra.bandCount)),
    };
  });
};

/** Peaks of the novelty, and those of the surprise that lie apart from them. */
const peaksOf = (stretch: Stretch, novelty: Float32Array, rises: Float32Array): Peak[] => {
  const plain = onePerSound(refinedPeaks(stretch, novelty));
  const isNew = ({ timeSec }: Peak) => plain.every((peak) => Math.abs(peak.timeSec - timeSec) >= P.SURPRISE_APART_SEC);
  const all = [...plain, ...surprisingPeaks(stretch, novelty, rises).filter(isNew)].sort((a, b) => a.timeSec - b.timeSec);
  return all.filter((peak, i) => !isForeEcho(peak, all.slice(i + 1, i + 4)));
};

/** The low-pass hears a loud stroke some milliseconds before it comes. */
const isForeEcho = (peak: Peak, next: readonly Peak[]): boolean =>
  next.some(
    ({ timeSec, height }) => timeSec - peak.timeSec <= P.SAME_SOUND_SEC && height >= P.HISS_HEIGHT && peak.height < P.FORE_ECHO_SHARE * height,
  );

/** The highest value of a curve around a frame. */
const highest = (curve: Float32Array, frame: number): number => {
  const middle = Math.round(frame);
  let best = 0;
  const to = Math.min(curve.length - 1, middle + P.SURPRISE_NEAR_FRAMES);
  for (let n = Math.max(0, middle - P.SURPRISE_NEAR_FRAMES); n <= to; n++) best = Math.max(best, curve[n]!);
  return best;
};

/** Peaks of the surprise; a lower one beside a higher one belongs to its sound. */
const surprisingPeaks = ({ sampleRateHz, hopSamples }: Stretch, novelty: Float32Array, rises: Float32Array): Peak[] =>
  localMaxima(rises, P.SURPRISE_FLOOR, P.PEAK_REACH_FRAMES)
    .filter((frame, i, all) => [all[i - 1], all[i + 1]].every((other) => isApart(frame, other) || rises[other!]! <= rises[frame]!))
    .map((frame) => {
      const { offset } = parabolaPeak(rises[frame - 1] ?? 0, rises[frame]!, rises[frame + 1] ?? 0);
      const timeSec = Math.max(0, ((frame + offset - P.SURPRISE_LAG_FRAMES) * hopSamples) / sampleRateHz);
      return { timeSec, height: Math.max(P.HEIGHT_LEAST, highest(novelty, frame)) };
    });

const isApart = (frame: number, other: number | undefined): boolean => other === undefined || Math.abs(other - frame) > P.SURPRISE_SAME_FRAMES;

const refinedPeaks = ({ samples, sampleRateHz, hopSamples }: Stretch, curve: Float32Array): Peak[] =>
  localMaxima(curve, P.CANDIDATE_FLOOR, P.PEAK_REACH_FRAMES)
    .map((frame) => {
      const { offset, height } = parabolaPeak(curve[frame - 1] ?? 0, curve[frame]!, curve[frame + 1] ?? 0);
      return { timeSec: refineOnset(samples, sampleRateHz, ((frame + offset) * hopSamples) / sampleRateHz).timeSec, height };
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
