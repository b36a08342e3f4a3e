/** Takes for tests, played by the simulated drummer. */
import { expectedCycle, readContent } from '@evenhand/core/exercise';
import { type Fault, performTake, styles } from '@evenhand/core/player';
import { seededRandom } from '@evenhand/core/random';
import { readSticking } from '@evenhand/core/sticking';
import { writeWav } from '@evenhand/core/take';

export interface PlayedTake {
  readonly sticking: string;
  readonly perBeat: number;
  readonly tempoBpm: number;
  readonly cycles: number;
  readonly faults?: readonly Fault[];
  readonly seed?: number;
}

/** The samples of a take at 44.1 kHz. */
export function playedTake({ sticking, perBeat, seed = 5, ...options }: PlayedTake) {
  const cycle = expectedCycle(readContent(readSticking(sticking).value!, { perBeat }).value!);
  return performTake(cycle, { ...options, style: styles.expert, startSec: 0.5, sampleRateHz: 44100, random: seededRandom(seed) });
}

/** A take as a WAV file of 16 bits. */
export const wavOf = (samples: Float32Array): Uint8Array => writeWav(samples, 44100, { bits: 16 });
