/** How loud a stroke is. */
import { dbOfAmplitude } from '../units.ts';
import * as P from './parameters.ts';

/** RMS in dB of full scale over the 20 ms after `timeSec`; silence gives −120. */
export const volumeDb = (samples: Float32Array, sampleRateHz: number, timeSec: number): number => {
  const from = Math.max(0, Math.round(timeSec * sampleRateHz));
  const to = Math.min(samples.length, from + Math.round(P.VOLUME_SEC * sampleRateHz));
  let energy = 0;
  for (let i = from; i < to; i++) energy += samples[i]! * samples[i]!;
  return to > from ? Math.max(-120, dbOfAmplitude(Math.sqrt(energy / (to - from)))) : -120;
};
