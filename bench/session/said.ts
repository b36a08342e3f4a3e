/** What stick clicks are heard in a recording, as the app hears them. */
import { createSticks, type StickCount, stepSticks } from '../../core/src/session/index.ts';

/** Frames that the capture worklet sends at a time. */
const BLOCK_FRAMES = 512;

export function saidIn(samples: Float32Array, sampleRateHz: number): readonly StickCount[] {
  const state = createSticks(sampleRateHz);
  const counts: StickCount[] = [];
  for (let at = 0; at < samples.length; at += BLOCK_FRAMES) {
    const counted = stepSticks(state, samples.subarray(at, at + BLOCK_FRAMES), at);
    if (counted) counts.push(counted);
  }
  return counts;
}
