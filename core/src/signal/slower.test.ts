/** A sound slowed: length, pitch and attacks. */
import { describe, expect, test } from 'vitest';
import { seededRandom } from '../random.ts';
import { slower } from './index.ts';

const RATE_HZ = 44_100;
const sine = (hz: number, sec: number) => Float32Array.from({ length: sec * RATE_HZ }, (_, i) => Math.sin((2 * Math.PI * hz * i) / RATE_HZ));

/** Rising zero crossings a second. */
function pitchHz(samples: Float32Array): number {
  const at: number[] = [];
  for (let i = 1; i < samples.length; i++) {
    const [a, b] = [samples[i - 1]!, samples[i]!];
    if (a < 0 && b >= 0) at.push(i - b / (b - a));
  }
  return ((at.length - 1) * RATE_HZ) / (at.at(-1)! - at[0]!);
}

/** Short rings, each at its second: hard attack, 300 Hz, gone in a tenth. */
function rings(atSec: readonly number[], sec: number): Float32Array {
  const out = new Float32Array(sec * RATE_HZ);
  for (const start of atSec.map((at) => Math.round(at * RATE_HZ))) {
    for (let i = start; i < out.length; i++) {
      const t = (i - start) / RATE_HZ;
      out[i]! += Math.exp(-t / 0.03) * Math.cos(2 * Math.PI * 300 * t);
    }
  }
  return out;
}

/** Samples at which the sound jumps up: two neighbours apart by more than half. */
function jumps(samples: Float32Array): readonly number[] {
  const at: number[] = [];
  for (let i = 1; i < samples.length; i++) {
    if (Math.abs(samples[i]! - samples[i - 1]!) > 0.5 && i - (at.at(-1) ?? -RATE_HZ) > 0.005 * RATE_HZ) at.push(i);
  }
  return at;
}

describe('slower', () => {
  test.each([
    { hz: 80, speed: 0.5 },
    { hz: 220, speed: 0.75 },
    { hz: 1000, speed: 0.5 },
    { hz: 3000, speed: 0.75 },
  ])('a sine of $hz Hz keeps its pitch at $speed of its speed and lasts as much longer (says: arithmetic)', ({ hz, speed }) => {
    const out = slower(sine(hz, 2), { sampleRateHz: RATE_HZ, speed, attacksSec: [] });
    expect(out.length).toBe(Math.round((2 * RATE_HZ) / speed));
    // A tenth of a semitone is not heard, and is .6 %.
    expect(Math.abs(pitchHz(out) / hz - 1)).toBeLessThan(0.006);
  });

  test.each([0.5, 0.75, 0.9])('attacks come at their second ÷ %d, to the sample, and none is doubled (says: arithmetic)', (speed) => {
    const random = seededRandom(7);
    const atSec = Array.from({ length: 24 }, (_, k) => 0.1 + 0.09 * k + 0.03 * random());
    const flam = [...atSec, atSec[5]! + 0.012];
    const out = slower(rings(flam, 3), { sampleRateHz: RATE_HZ, speed, attacksSec: flam });
    const wanted = [...flam].sort((a, b) => a - b).map((sec) => (sec / speed) * RATE_HZ);
    const found = jumps(out);
    expect(found.length).toBe(wanted.length);
    expect(Math.max(...found.map((sample, k) => Math.abs(sample - wanted[k]!)))).toBeLessThanOrEqual(1.5);
  });

  test('noise stays as strong as it was (says: arithmetic)', () => {
    const random = seededRandom(3);
    const noise = Float32Array.from({ length: RATE_HZ }, () => random() - 0.5);
    const power = (of: Float32Array) => of.reduce((sum, sample) => sum + sample * sample, 0) / of.length;
    const out = slower(noise, { sampleRateHz: RATE_HZ, speed: 0.5, attacksSec: [] });
    // Less than half a dB is not heard.
    expect(Math.abs(10 * Math.log10(power(out) / power(noise)))).toBeLessThan(0.5);
  });

  test('full speed is the sound itself', () => {
    const own = sine(200, 0.1);
    expect(slower(own, { sampleRateHz: RATE_HZ, speed: 1, attacksSec: [0.05] })).toBe(own);
  });
});
