import { type ExpectedCycle, expectedCycle, readContent } from '@evenhand/core/exercise';
import { readSticking } from '@evenhand/core/sticking';
import { expect, test } from 'vitest';
import { overLoop } from './overloop.ts';

const RATE_HZ = 8000;
const cycleOf = (text: string, perBeat: number): ExpectedCycle => expectedCycle(readContent(readSticking(text).value!, { perBeat }).value!);
const silence = { samples: new Float32Array(20 * RATE_HZ), sampleRateHz: RATE_HZ };
const over = { beatsPerBar: 4, click: false, gain: 1 };

/** Seconds at which something begins after silence. */
function startsOf(samples: Float32Array): number[] {
  const starts: number[] = [];
  let quietSince = -RATE_HZ;
  samples.forEach((sample, i) => {
    if (Math.abs(sample) < 1e-5) return;
    if (i - quietSince > 0.1 * RATE_HZ) starts.push(i / RATE_HZ);
    quietSince = i;
  });
  return starts;
}

test('arithmetic: two bars at 120 are 4 s; a stroke on every 1 of a cycle of a bar falls at 0 and 2 s', () => {
  const loop = { startSec: 3, endSec: 7, bars: 2, tempoBpm: 120 };
  const samples = overLoop(silence, loop, { ...over, cycle: cycleOf('R---', 1) });
  expect(samples).toHaveLength(4 * RATE_HZ);
  expect(startsOf(samples)).toEqual([0, 2]);
});

test('a cycle that does not fill the loop is cut where the loop begins again: a stroke every three beats of eight', () => {
  const loop = { startSec: 0, endSec: 4, bars: 2, tempoBpm: 120 };
  expect(startsOf(overLoop(silence, loop, { ...over, cycle: cycleOf('R--', 1) }))).toEqual([0, 1.5, 3]);
});

test('the recording alone is the recording; an exercise at no volume changes nothing of it but the seam', () => {
  const tone = { ...silence, samples: silence.samples.map((_, i) => 0.3 * Math.sin(i * 0.2)) };
  const loop = { startSec: 1, endSec: 3, bars: 1, tempoBpm: 120 };
  const alone = overLoop(tone, loop, { ...over, cycle: null });
  expect(alone[RATE_HZ]).toBe(tone.samples[2 * RATE_HZ]);
  const silent = overLoop(tone, loop, { ...over, cycle: cycleOf('RL', 2), gain: 0 });
  expect(Math.max(...silent.map((sample, i) => Math.abs(sample - alone[i]!)))).toBe(0);
});

test('a flam on 1 begins at the end of the loop', () => {
  const samples = overLoop(silence, { startSec: 0, endSec: 2, bars: 1, tempoBpm: 120 }, { ...over, cycle: cycleOf('lR---', 1) });
  expect(Math.max(...samples.slice(-0.06 * RATE_HZ).map(Math.abs))).toBeGreaterThan(1e-3);
});
