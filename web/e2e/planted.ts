/** Recordings for the tests: a simulated drummer with planted faults, as the file that Chromium takes for its microphone. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expectedCycle, readContent } from '@evenhand/core/exercise';
import { type Fault, performTake, styles } from '@evenhand/core/player';
import { seededRandom } from '@evenhand/core/random';
import { readSticking } from '@evenhand/core/sticking';
import { writeWav } from '@evenhand/core/take';

/** Chromium's fake microphone runs at this rate; any other would be resampled. */
const MICROPHONE_RATE_HZ = 44_100;

/** Quiet before the first stroke: the first moments of the fake microphone are dirty, and the page needs time to open the take. */
const QUIET_SEC = 2.5;

export interface Planted {
  readonly sticking: string;
  readonly perBeat: number;
  readonly tempoBpm: number;
  readonly cycles: number;
  readonly faults: readonly Fault[];
}

/** Writes a 16-bit WAV of an expert player with the faults asked for, and gives its path. */
export function plantedFile(name: string, { sticking, perBeat, tempoBpm, cycles, faults }: Planted): string {
  const content = readContent(readSticking(sticking).value!, { perBeat }).value!;
  const { samples } = performTake(expectedCycle(content), {
    tempoBpm,
    cycles,
    faults,
    style: styles.expert,
    startSec: QUIET_SEC,
    sampleRateHz: MICROPHONE_RATE_HZ,
    random: seededRandom(6),
  });
  return kept(name, writeWav(samples, MICROPHONE_RATE_HZ, { bits: 16 }));
}

/** Ten seconds in which nothing is played: digital silence. */
export const silentFile = (name: string): string => kept(name, writeWav(new Float32Array(10 * MICROPHONE_RATE_HZ), MICROPHONE_RATE_HZ, { bits: 16 }));

function kept(name: string, bytes: Uint8Array): string {
  const folder = join(tmpdir(), 'evenhand-e2e');
  mkdirSync(folder, { recursive: true });
  const path = join(folder, name);
  writeFileSync(path, bytes);
  return path;
}

/** Arguments that give Chromium a microphone, allowed without asking. */
export const ANY_MICROPHONE: readonly string[] = [
  '--use-fake-ui-for-media-stream',
  '--use-fake-device-for-media-stream',
  '--autoplay-policy=no-user-gesture-required',
];

/** The same with a file as what it hears, over and over. */
export const repeatedMicrophone = (path: string): readonly string[] => [...ANY_MICROPHONE, `--use-file-for-fake-audio-capture=${path}`];

/** The same with a file that plays once; it is silent after. */
export const microphoneOf = (path: string): readonly string[] => repeatedMicrophone(`${path}%noloop`);
