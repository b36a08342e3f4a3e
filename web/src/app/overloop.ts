/** A loop of a recording with an exercise over it, as samples that can be played over and over. */
import type { ExpectedCycle } from '@evenhand/core/exercise';
import { seededRandom } from '@evenhand/core/random';
import { toNumber } from '@evenhand/core/rational';
import type { SongLoop } from '@evenhand/core/song';
import { type ClickSound, mixIn, renderExercise, underCeiling } from '@evenhand/core/sound';

/** One channel of the recording. */
export interface SongSound {
  readonly samples: Float32Array;
  readonly sampleRateHz: number;
}

/** What sounds over it. */
export interface OverSound {
  /** Null: the recording alone. */
  readonly cycle: ExpectedCycle | null;
  readonly beatsPerBar: number;
  readonly click: boolean;
  /** What it sounds like; unless said, the usual sound. */
  readonly clickSound?: ClickSound;
  /** How loud the exercise is beside the recording, as a factor of amplitude; 1 as it is written. */
  readonly gain: number;
}

/** Small notes before the first beat are heard at the end of the loop. Assumption: no drag is longer. */
const LEAD_SEC = 0.25;

/** The cut ends of the recording are faded over so long, s, so that the seam does not click. Assumption: shorter than any stroke. */
const SEAM_SEC = 0.004;

/**
 * The bars of the loop with the exercise from its first 1 on, cycle after cycle, cut where the loop begins again.
 * @returns mono samples, exactly as long as the loop, rounded to a frame.
 */
export function overLoop(
  { samples, sampleRateHz }: SongSound,
  loop: SongLoop,
  { cycle, beatsPerBar, click, clickSound, gain }: OverSound,
): Float32Array {
  const [from, to] = [loop.startSec, loop.endSec].map((sec) => Math.round(sec * sampleRateHz)) as [number, number];
  const mixed = seamed(samples.slice(from, to), Math.round(SEAM_SEC * sampleRateHz));
  if (!cycle) return mixed;
  const lengthBeats = loop.bars * beatsPerBar;
  const sound = renderExercise(cycle, {
    tempoBpm: loop.tempoBpm,
    cycles: Math.ceil(lengthBeats / toNumber(cycle.lengthBeats) - 1e-9),
    sampleRateHz,
    random: seededRandom(1),
    leadSec: LEAD_SEC,
    ...(click ? { clickBeats: beatsPerBar, ...(clickSound ? { clickSound } : {}) } : {}),
  });
  const lead = Math.round(LEAD_SEC * sampleRateHz);
  const louder = (part: Float32Array): Float32Array => part.map((sample) => sample * gain);
  mixIn(mixed, louder(sound.slice(lead, lead + mixed.length)), 0);
  mixIn(mixed, louder(sound.slice(0, lead)), mixed.length - lead);
  return underCeiling(mixed);
}

/** The samples with both ends faded. */
function seamed(samples: Float32Array, length: number): Float32Array {
  for (let i = 0; i < Math.min(length, samples.length); i++) {
    samples[i]! *= i / length;
    samples[samples.length - 1 - i]! *= i / length;
  }
  return samples;
}
