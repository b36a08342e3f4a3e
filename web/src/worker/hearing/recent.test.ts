import { expect, test } from 'vitest';
import { createRecent } from './recent.ts';

const RATE = 1000;
const counted = (fromFrame: number, length: number) => Float32Array.from({ length }, (_, i) => fromFrame + i);

test('gives the sound from a frame on as it came, silent where nothing came (arithmetic: the sample is its frame)', () => {
  const recent = createRecent(RATE);
  for (const from of [0, 100, 300]) recent.add(counted(from, 100), from);
  const { samples, fromFrame } = recent.from(150);
  expect([fromFrame, samples.length]).toEqual([100, 300]);
  expect([...samples.subarray(0, 100)]).toEqual([...counted(100, 100)]);
  expect(samples.subarray(100, 200).every((sample) => sample === 0)).toBe(true);
  expect([...samples.subarray(200)]).toEqual([...counted(300, 100)]);
});

test('keeps a minute and no more, however long the take goes on (arithmetic: 60 s at 1000 Hz)', () => {
  const recent = createRecent(RATE);
  for (let from = 0; from < 600_000; from += 500) recent.add(counted(from, 500), from);
  const { samples, fromFrame } = recent.from(0);
  expect(fromFrame).toBe(540_000);
  expect(samples).toHaveLength(60_000);
  expect(samples[0]).toBe(540_000);
});

test('before anything came, and after its end, there is nothing', () => {
  const recent = createRecent(RATE);
  expect(recent.from(0).samples).toHaveLength(0);
  recent.add(counted(0, 10), 0);
  expect(recent.from(10)).toMatchObject({ fromFrame: 10, samples: new Float32Array(0) });
});
