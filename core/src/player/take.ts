/** What a microphone would have taken of a simulated performance: the strokes, the room, the noise, the click. */
import type { ExpectedCycle } from '../exercise/index.ts';
import type { Random } from '../random.ts';
import { normal } from '../random.ts';
import { type ClickKind, type ClickSound, mixIn, renderClick, renderStrokes, type SoundingStroke, underCeiling } from '../sound/index.ts';
import { amplitudeOfDb, frameOfSec } from '../units.ts';
import { type PerformedStroke, type PerformOptions, perform } from './perform.ts';
import { inRoom, type Room } from './room.ts';

export interface PerformedTakeOptions extends PerformOptions {
  readonly sampleRateHz: number;
  /** Seconds after the last stroke; 1 unless said. */
  readonly tailSec?: number;
  readonly room?: Room;
  /** Volume of the noise under everything, RMS in dB of full scale; −72 unless said. */
  readonly noiseDb?: number;
  /** Clicks that reach the microphone, and how much softer than they were made; all beats of the usual sound unless said. */
  readonly clicks?: {
    readonly timesSec: readonly number[];
    readonly downDb: number;
    readonly kinds?: readonly ClickKind[];
    readonly sound?: ClickSound;
  };
}

/** A take and the truth about it. */
export interface PerformedTake {
  readonly samples: Float32Array;
  readonly sampleRateHz: number;
  readonly strokes: readonly PerformedStroke[];
}

/**
 * Plays a cycle and records it. The same options and the same seed give the same bytes.
 * @returns mono samples, true peak at most −1 dB of full scale, and the strokes as they were played.
 */
export function performTake(cycle: ExpectedCycle, options: PerformedTakeOptions): PerformedTake {
  const { sampleRateHz, tailSec = 1, room, noiseDb = -72, clicks, random } = options;
  const strokes = perform(cycle, options);
  const durationSec = Math.max(0, ...strokes.map(({ timeSec }) => timeSec)) + tailSec;
  const dry = renderStrokes(strokes.flatMap(sounding), { sampleRateHz, durationSec, random });
  const sound = room ? inRoom(dry, { room, sampleRateHz, random }) : dry;
  clicks?.timesSec.forEach((timeSec, i) => {
    const click = renderClick(clicks.kinds?.[i] ?? 'beat', sampleRateHz, clicks.sound);
    mixIn(
      sound,
      click.map((sample) => sample * amplitudeOfDb(-clicks.downDb)),
      frameOfSec(timeSec, sampleRateHz),
    );
  });
  addNoise(sound, noiseDb, random);
  return { samples: underCeiling(sound), sampleRateHz, strokes };
}

function sounding({ missed, timeSec, levelDb, surface, graces, bounces }: PerformedStroke): SoundingStroke[] {
  if (missed) return [];
  return [...graces, { timeSec, levelDb }, ...bounces].map((onset) => ({ ...onset, surface }));
}

/** Never exactly zero for long: a microphone is not. */
function addNoise(sound: Float32Array, noiseDb: number, random: Random): void {
  const gain = amplitudeOfDb(noiseDb);
  for (let i = 0; i < sound.length; i++) sound[i]! += gain * normal(random);
}
