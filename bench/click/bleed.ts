/** What a microphone hears of the app's own sounds: a loudspeaker beside the player, and the room. */
import { inRoom } from '../../core/src/player/room.ts';
import { seededRandom } from '../../core/src/random.ts';
import { type Biquad, filtered } from '../../core/src/signal/biquad.ts';
import { mixIn } from '../../core/src/sound/index.ts';
import { dbOfAmplitude } from '../../core/src/units.ts';

/** How the sound comes to the microphone. */
export interface Path {
  readonly name: string;
  through(sound: Float32Array, sampleRateHz: number): Float32Array;
}

/** A little loudspeaker: nothing under some 500 Hz, a bump at 3 kHz, less above 9. Assumption, as phones are drawn; none was measured. */
const small = (rateHz: number): readonly Biquad[] => [highPass(500, rateHz), highPass(500, rateHz), bump(3000, 6, rateHz), lowPass(9000, rateHz)];

export const PATHS: readonly Path[] = [
  { name: 'straight', through: (sound) => sound },
  {
    name: 'a small loudspeaker in a room of .3 s',
    through(sound, sampleRateHz) {
      const longer = new Float32Array(sound.length + Math.round(0.35 * sampleRateHz));
      longer.set(sound);
      const heard = small(sampleRateHz).reduce<ArrayLike<number>>((samples, filter) => filtered(samples, filter), longer);
      return inRoom(Float32Array.from(heard), { room: { decaySec: 0.3, directDb: 6, delaySec: 0.004 }, sampleRateHz, random: seededRandom(31) });
    },
  },
];

/** One sound of the app, from a frame on. */
export interface Sounding {
  readonly frame: number;
  readonly samples: Float32Array;
}

/** Mixes sounds into a take, all by the same gain. Sounds that are the same samples pass the path once. */
export function mixBleed(
  take: Float32Array,
  sounds: readonly Sounding[],
  { path, gain, sampleRateHz }: { readonly path: Path; readonly gain: number; readonly sampleRateHz: number },
): Float32Array {
  const mixed = take.slice();
  const passed = new Map<Float32Array, Float32Array>();
  for (const { frame, samples } of sounds) {
    const heard = passed.get(samples) ?? path.through(samples, sampleRateHz).map((sample) => sample * gain);
    passed.set(samples, heard);
    mixIn(mixed, heard, frame);
  }
  return mixed;
}

/** RMS over the first 20 ms, dB: how loud a stroke or a click is said to be. */
export function levelDbOf(samples: Float32Array, sampleRateHz: number): number {
  const part = samples.subarray(0, Math.round(0.02 * sampleRateHz));
  return dbOfAmplitude(Math.sqrt(part.reduce((sum, sample) => sum + sample * sample, 0) / part.length));
}

/* Second-order sections by the bilinear transform, as they stand in every book of filters (arithmetic). */

const of = (b: readonly [number, number, number], a: readonly [number, number, number]): Biquad => ({
  b: [b[0] / a[0], b[1] / a[0], b[2] / a[0]],
  a: [1, a[1] / a[0], a[2] / a[0]],
});

const turns = (hz: number, rateHz: number) => {
  const w = (2 * Math.PI * hz) / rateHz;
  return { cos: Math.cos(w), alpha: Math.sin(w) * Math.SQRT1_2 };
};

function highPass(hz: number, rateHz: number): Biquad {
  const { cos, alpha } = turns(hz, rateHz);
  return of([(1 + cos) / 2, -1 - cos, (1 + cos) / 2], [1 + alpha, -2 * cos, 1 - alpha]);
}

function lowPass(hz: number, rateHz: number): Biquad {
  const { cos, alpha } = turns(hz, rateHz);
  return of([(1 - cos) / 2, 1 - cos, (1 - cos) / 2], [1 + alpha, -2 * cos, 1 - alpha]);
}

function bump(hz: number, db: number, rateHz: number): Biquad {
  const { cos, alpha } = turns(hz, rateHz);
  const amp = 10 ** (db / 40);
  return of([1 + alpha * amp, -2 * cos, 1 - alpha * amp], [1 + alpha / amp, -2 * cos, 1 - alpha / amp]);
}
