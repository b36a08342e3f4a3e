/** How loud a recording is to a listener: gated integrated loudness of ITU-R BS.1770. */
import { ParameterError } from '../errors.ts';
import { dbOfPower } from '../units.ts';
import { biquadAt, filtered } from './biquad.ts';
import {
  HEAD_SHELF,
  LOUDNESS_BLOCK_SEC,
  LOUDNESS_OFFSET,
  LOUDNESS_RATE_HZ,
  LOUDNESS_STEP_SEC,
  LOW_CUT,
  REST_GATE_LU,
  SILENCE_GATE_LKFS,
} from './parameters.ts';

/**
 * Integrated loudness in LKFS (the same as LUFS); differences of it are LU, a step of 1 dB is 1 LU.
 * @param channels one list of samples each, full scale ±1, all of one length: one (heard from the centre), or left and right. Surround channels, which
 * count more, are not asked for.
 * @returns null when nothing is as long as one block of 400 ms, or everything is silence.
 * @throws ParameterError without channels.
 * @source [BS1770] annex 1
 */
export function loudnessLkfs(channels: readonly ArrayLike<number>[], sampleRateHz: number): number | null {
  if (channels.length === 0) throw new ParameterError('channels', '0', 'one channel or more');
  const steps = channels.map((samples) => stepPowers(samples, sampleRateHz));
  const summed = steps[0]!.map((_, k) => steps.reduce((sum, one) => sum + one[k]!, 0));
  const perBlock = Math.round(LOUDNESS_BLOCK_SEC / LOUDNESS_STEP_SEC);
  const blocks = Array.from({ length: Math.max(0, summed.length - perBlock + 1) }, (_, k) => mean(summed.slice(k, k + perBlock)));
  const heard = blocks.filter((power) => lkfsOf(power) > SILENCE_GATE_LKFS);
  if (heard.length === 0) return null;
  const gate = lkfsOf(mean(heard)) + REST_GATE_LU;
  return lkfsOf(mean(heard.filter((power) => lkfsOf(power) > gate)));
}

const lkfsOf = (power: number): number => LOUDNESS_OFFSET + dbOfPower(power);

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

/** Mean square of each whole tenth of a second of a channel as it is heard. */
function stepPowers(samples: ArrayLike<number>, sampleRateHz: number): readonly number[] {
  const shelved = filtered(samples, biquadAt(HEAD_SHELF, LOUDNESS_RATE_HZ, sampleRateHz));
  const weighted = filtered(shelved, biquadAt(LOW_CUT, LOUDNESS_RATE_HZ, sampleRateHz));
  const step = Math.round(LOUDNESS_STEP_SEC * sampleRateHz);
  return Array.from({ length: Math.floor(weighted.length / step) }, (_, k) => {
    let sum = 0;
    for (let i = k * step; i < (k + 1) * step; i++) sum += weighted[i]! * weighted[i]!;
    return sum / step;
  });
}
