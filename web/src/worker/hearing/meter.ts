/** How loud the microphone is, about 20 times a second. */
import type { Meter } from '../protocol.ts';

const READINGS_PER_SEC = 20;

/** What was heard since the last reading. */
interface MeterState {
  frames: number;
  peak: number;
  energy: number;
}

/** A meter that is fed block after block and gives a reading when one is due, else null. */
export function createMeter(sampleRateHz: number): (frame: number, samples: Float32Array) => Meter | null {
  const state: MeterState = { frames: 0, peak: 0, energy: 0 };
  return (frame, samples) => {
    for (const value of samples) {
      state.peak = Math.max(state.peak, Math.abs(value));
      state.energy += value * value;
    }
    state.frames += samples.length;
    if (state.frames < sampleRateHz / READINGS_PER_SEC) return null;
    const meter: Meter = { frame: frame + samples.length, peak: state.peak, rms: Math.sqrt(state.energy / state.frames) };
    Object.assign(state, { frames: 0, peak: 0, energy: 0 });
    return meter;
  };
}
