/** Takes are packed only at rest, one after another, and again after something new. */
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { BETWEEN_MS, packAtRest, REST_MS } from './packing.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

/** A Worker with so many takes to pack. */
function workerWith(takes: number) {
  let left = takes;
  const packOne = vi.fn(async () => {
    const takeId = left > 0 ? `take ${left--}` : null;
    return { value: { takeId, more: left > 0 }, problems: [] };
  });
  return { packOne, add: () => left++ };
}

it('says: DESIGN, FLAC afterwards, when idle: nothing at once, then all, one by one, then nothing more is asked', async () => {
  const { packOne } = workerWith(3);
  packAtRest(() => true, packOne).wake();
  await vi.advanceTimersByTimeAsync(REST_MS - 1);
  expect(packOne).toHaveBeenCalledTimes(0);
  await vi.advanceTimersByTimeAsync(1);
  expect(packOne).toHaveBeenCalledTimes(1);
  await vi.advanceTimersByTimeAsync(10 * BETWEEN_MS);
  expect(packOne).toHaveBeenCalledTimes(3);
  expect(vi.getTimerCount()).toBe(0);
});

it('while somebody plays it waits, and takes it up afterwards', async () => {
  const { packOne } = workerWith(1);
  let playing = true;
  packAtRest(() => !playing, packOne).wake();
  await vi.advanceTimersByTimeAsync(10 * REST_MS);
  expect(packOne).toHaveBeenCalledTimes(0);
  playing = false;
  await vi.advanceTimersByTimeAsync(REST_MS);
  expect(packOne).toHaveBeenCalledTimes(1);
});

it('each new take puts it off; one that comes while another is packed is taken up too', async () => {
  const { packOne, add } = workerWith(1);
  const packing = packAtRest(() => true, packOne);
  packing.wake();
  await vi.advanceTimersByTimeAsync(REST_MS - 1);
  packing.wake();
  await vi.advanceTimersByTimeAsync(REST_MS - 1);
  expect(packOne).toHaveBeenCalledTimes(0);
  packOne.mockImplementationOnce(async () => {
    add();
    packing.wake();
    return { value: { takeId: 'take 1', more: false }, problems: [] };
  });
  await vi.advanceTimersByTimeAsync(1);
  expect(packOne).toHaveBeenCalledTimes(1);
  await vi.advanceTimersByTimeAsync(REST_MS);
  expect(packOne).toHaveBeenCalledTimes(2);
});
