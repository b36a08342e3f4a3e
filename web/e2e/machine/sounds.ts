/** Sounds made for tests: strokes at known times over a floor of noise, never a run of exact zeros. */
import { writeFileSync } from 'node:fs';
import { seededRandom } from '@evenhand/core/random';
import { writeWav } from '@evenhand/core/take';

/** Noise bursts that die away within some 20 ms, each first sample on its frame, over noise at −70 dB. */
export function strokesAt(
  timesSec: readonly number[],
  { sampleRateHz, durationSec }: { sampleRateHz: number; durationSec: number },
): Float32Array<ArrayBuffer> {
  const random = seededRandom(7);
  const samples = Float32Array.from({ length: Math.round(durationSec * sampleRateHz) }, () => 0.0006 * (random() - 0.5) + 0.0001);
  for (const timeSec of timesSec) {
    const from = Math.round(timeSec * sampleRateHz);
    for (let i = 0; i < 0.06 * sampleRateHz; i++) samples[from + i]! += 0.6 * Math.exp(-i / (0.012 * sampleRateHz)) * (2 * random() - 1);
    samples[from] = 0.5;
  }
  return samples;
}

/** Writes a sound as 16-bit WAV for Chromium's fake microphone, which runs at 44.1 kHz. */
export function writeMicrophoneFile(file: string, samples: Float32Array): void {
  writeFileSync(file, writeWav(samples, 44_100, { bits: 16 }));
}
