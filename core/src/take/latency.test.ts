/** Holds the way of a click to made takes in which it is known to the sample. */
import { describe, expect, it } from 'vitest';
import { seededRandom } from '../random.ts';
import { clickLatency, type SentClick } from './index.ts';

const RATE = 44_100;
const tone = (hz: number) => Float32Array.from({ length: 1500 }, (_, i) => 0.4 * Math.cos((2 * Math.PI * hz * i) / RATE) * Math.exp(-i / 350));
const BAR = tone(1568);
const BEAT = tone(1046.5);

interface Made {
  readonly latencyFrames: number;
  /** Of the click's sound in the take, dB under the strokes. */
  readonly bleedDb: number;
  /** How many clicks pass before somebody plays. */
  readonly countIn?: number;
  readonly jitterFrames?: number;
  readonly seed?: number;
}

/** Sixteen beats at 100, noise at −60 dB; strokes are bursts of noise within ±10 ms of where the click is heard. */
function made({ latencyFrames, bleedDb, countIn = 0, jitterFrames = 0, seed = 1 }: Made): { samples: Float32Array; clicks: SentClick[] } {
  const random = seededRandom(seed);
  const samples = Float32Array.from({ length: 11 * RATE }, () => 0.001 * (2 * random() - 1));
  const clicks = Array.from({ length: 16 }, (_, k) => ({ frame: Math.round(0.3 * RATE + k * 0.6 * RATE), sound: k % 4 === 0 ? BAR : BEAT }));
  for (const [k, { frame, sound }] of clicks.entries()) {
    const at = frame + latencyFrames + Math.round(jitterFrames * (2 * random() - 1));
    sound.forEach((value, i) => {
      samples[at + i]! += 10 ** (bleedDb / 20) * value;
    });
    const struck = at + Math.round(0.01 * RATE * (2 * random() - 1));
    for (let i = 0; k >= countIn && i < 3000; i++) samples[struck + i]! += 0.4 * (2 * random() - 1) * Math.exp(-i / 600);
  }
  return { samples, clicks };
}

describe('the way of a click', () => {
  it.each([
    { latencyFrames: 441, bleedDb: 0, countIn: 16 },
    { latencyFrames: 9000, bleedDb: -30, countIn: 16 },
    { latencyFrames: 1234, bleedDb: -20, countIn: 8 },
    { latencyFrames: 1234, bleedDb: -6, countIn: 4 },
  ])('of $latencyFrames frames is told to a tenth of a millisecond, $bleedDb dB, played from click $countIn on (closed form)', (how) => {
    const { samples, clicks } = made(how);
    const found = clickLatency(samples, RATE, clicks)!;
    expect(Math.abs(found.latencySec - how.latencyFrames / RATE)).toBeLessThan(0.0001);
    expect(found.spreadSec).toBeLessThan(0.001);
  });

  it('tells clicks that do not lie in one place by their spread: uniform over ±3 ms has a MAD of 1.5 ms (arithmetic)', () => {
    const { samples, clicks } = made({ latencyFrames: 2000, bleedDb: 0, countIn: 16, jitterFrames: 0.003 * RATE });
    const found = clickLatency(samples, RATE, clicks);
    expect(found === null || found.spreadSec > 0.001).toBe(true);
  });

  it('is not found where there is no click to be heard, however it was played', () => {
    for (let seed = 1; seed <= 4; seed++) {
      const { samples, clicks } = made({ latencyFrames: 700, bleedDb: -200, seed });
      expect(clickLatency(samples, RATE, clicks)).toBe(null);
    }
  });
});
