/** A room around a dry sound: noise that dies away. */
import type { Random } from '../random.ts';
import { amplitudeOfDb, frameOfSec } from '../units.ts';
import { ROOM_TAPS_PER_SEC } from './parameters.ts';

export interface Room {
  /** Seconds in which the room's answer falls by 60 dB. */
  readonly decaySec: number;
  /** How much stronger the direct sound is than the whole answer of the room, dB of energy. */
  readonly directDb: number;
  /** Seconds until the first reflection. */
  readonly delaySec: number;
}

/**
 * The dry sound with the answer of a room added. The answer is sparse noise (taps of ±1 at uneven distances), so that adding it costs little.
 * @source [KarjalainenJarvelainen2007]
 */
export function inRoom(dry: Float32Array, { room, sampleRateHz, random }: { room: Room; sampleRateHz: number; random: Random }): Float32Array {
  const taps = tapsOf(room, sampleRateHz, random);
  const wet = Float32Array.from(dry);
  for (const { at, gain } of taps) {
    for (let i = at; i < wet.length; i++) wet[i]! += gain * dry[i - at]!;
  }
  return wet;
}

interface Tap {
  readonly at: number;
  readonly gain: number;
}

function tapsOf({ decaySec, directDb, delaySec }: Room, sampleRateHz: number, random: Random): Tap[] {
  const stepSec = 1 / ROOM_TAPS_PER_SEC;
  const raw = Array.from({ length: Math.round(decaySec * ROOM_TAPS_PER_SEC) }, (_, i) => {
    const sec = (i + random()) * stepSec;
    return { at: frameOfSec(delaySec + sec, sampleRateHz), gain: (random() < 0.5 ? -1 : 1) * amplitudeOfDb((-60 * sec) / decaySec) };
  });
  const energy = raw.reduce((sum, { gain }) => sum + gain * gain, 0);
  const scale = amplitudeOfDb(-directDb) / Math.sqrt(energy);
  return raw.map(({ at, gain }) => ({ at, gain: gain * scale }));
}
