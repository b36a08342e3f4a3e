/** From the sample where something new begins to the onset as EAR.md defines it: the first sample at 10 % of the stroke's own peak. */
import * as P from './parameters.ts';

/**
 * The onset frame of a stroke whose sound begins to stand out at `frame`. Where little rings before, the 10 % are read off the samples; where
 * the ring hides them, the visible part of a slow attack (a kick, a low tom) is drawn back to 10 % in a straight line, at most 2.5 ms; fast ones have none to speak of.
 */
export const onsetFrame = (samples: Float32Array, sampleRateHz: number, frame: number): number => {
  const frames = (sec: number) => Math.round(sec * sampleRateHz);
  const peak = loudest(samples, frame, frame + frames(P.ONSET_PEAK_SEC));
  const before = loudest(samples, frame - frames(P.ONSET_BEFORE_SEC), frame - frames(P.ONSET_GAP_SEC));
  const hidden = before / (peak + 1e-12);
  if (hidden < P.ONSET_SHARE) return firstAt(samples, P.ONSET_SHARE * peak, { from: frame, to: frame + frames(P.ONSET_LATEST_SEC) }) ?? frame;
  if (hidden > P.ONSET_HIDDEN_MOST || meanHz(samples, sampleRateHz, { from: frame, to: frame + frames(P.ONSET_PEAK_SEC) }) > P.ONSET_SLOW_HZ)
    return frame;
  const half = firstAt(samples, 0.5 * peak, { from: frame, to: frame + frames(P.ONSET_PEAK_SEC) }) ?? frame;
  const drawnBack = ((hidden - P.ONSET_SHARE) / (0.5 - hidden)) * (half - frame);
  return Math.max(0, frame - Math.min(frames(P.ONSET_EARLIEST_SEC), Math.round(drawnBack)));
};

const loudest = (samples: Float32Array, from: number, to: number): number => {
  let peak = 0;
  for (let i = Math.max(0, from); i < Math.min(samples.length, to); i++) peak = Math.max(peak, Math.abs(samples[i]!));
  return peak;
};

const firstAt = (samples: Float32Array, limit: number, { from, to }: { from: number; to: number }): number | null => {
  for (let i = Math.max(0, from); i < Math.min(samples.length, to); i++) if (Math.abs(samples[i]!) >= limit) return i;
  return null;
};

/** RMS frequency of a stretch, from the energy of its differences; silence gives 0. */
const meanHz = (samples: Float32Array, sampleRateHz: number, { from, to }: { from: number; to: number }): number => {
  let energy = 1e-20;
  let change = 0;
  for (let i = Math.max(1, from); i < Math.min(samples.length, to); i++) {
    energy += samples[i]! ** 2;
    change += (samples[i]! - samples[i - 1]!) ** 2;
  }
  return (Math.asin(Math.min(1, Math.sqrt(change / energy) / 2)) / Math.PI) * sampleRateHz;
};
