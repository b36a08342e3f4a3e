/** Chunks of a take put together again. */
import { expect, it } from 'vitest';
import { joinChunks } from './take-rows.ts';

const chunk = (index: number, offsetFrames: number, values: readonly number[]) => ({
  takeId: 't',
  index,
  offsetFrames,
  samples: Float32Array.from(values),
});

it('chunks lie where they were, whatever order they come in, and what is missing between them is zeros', () => {
  expect([...joinChunks([chunk(1, 5, [4, 5]), chunk(0, 0, [1, 2, 3])])]).toEqual([1, 2, 3, 0, 0, 4, 5]);
});

it('no chunks are no sound', () => {
  expect(joinChunks([]).length).toBe(0);
});
