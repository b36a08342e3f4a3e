/** The spoken count-in with a made voice: on its beats as far as a voice can be, never over the first beat, silent where there is no voice. */
import type { BlockLayout } from '@evenhand/core/session';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { createCounting } from './counting.ts';

beforeEach(() => void vi.useFakeTimers({ now: 0 }));
afterEach(() => void vi.useRealTimers());

const RATE = 1000;
const LOCAL = { lang: 'en-GB', localService: true };
const layout = (change: Partial<BlockLayout> = {}): BlockLayout => ({
  ...{ sampleRateHz: RATE, tempoBpm: 120, beatsPerBar: 4, startFrame: 1000, countInBars: 2, firstBar: 0, barCount: 4, roundBars: 4 },
  ...change,
});

/** @param slowMs from asking to being heard. */
function stage({ slowMs = 120, voices = [LOCAL], by = { lang: 'en-GB' } as { lang: string } | null } = {}) {
  const heard: [word: string, ms: number][] = [];
  const rates: number[] = [];
  const cancelled: number[] = [];
  const speech = {
    synthesis: {
      getVoices: () => voices,
      speak(utterance: unknown) {
        const one = utterance as { text: string; rate: number; onstart: () => void };
        rates.push(one.rate);
        setTimeout(() => {
          heard.push([one.text, Date.now()]);
          one.onstart();
        }, slowMs);
      },
      cancel: () => cancelled.push(Date.now()),
    },
    utter: (text: string) => ({ text, voice: null, lang: '', onend: null, onerror: null }),
  };
  return { counting: createCounting(by, { speech, now: () => Date.now(), msOf: (frame) => frame }), heard, rates, cancelled };
}

test('one . two . one two three four, each on its beat once it is known how slow the voice is, and silence before the first bar (arithmetic: beats of 500 ms from 1000)', async () => {
  const first = stage();
  first.counting.follow(layout());
  await vi.advanceTimersByTimeAsync(6000);
  expect(first.heard.map(([word]) => word)).toEqual(['one', 'two', 'one', 'two', 'three', 'four']);
  const again = stage();
  vi.setSystemTime(0);
  again.counting.follow(layout());
  await vi.advanceTimersByTimeAsync(6000);
  expect(again.heard.map(([, ms]) => ms)).toEqual([1000, 2000, 3000, 3500, 4000, 4500]);
  expect(again.cancelled.at(-1)).toBe(5000 - 40);
});

test('the same layout again changes nothing; another counts anew; none hushes it', async () => {
  const { counting, heard } = stage();
  const same = layout();
  counting.follow(same);
  await vi.advanceTimersByTimeAsync(1500);
  counting.follow(same);
  await vi.advanceTimersByTimeAsync(1000);
  counting.follow(layout({ startFrame: 4000, countInBars: 1 }));
  await vi.advanceTimersByTimeAsync(2000);
  counting.follow(null);
  await vi.advanceTimersByTimeAsync(4000);
  expect(heard.map(([word]) => word)).toEqual(['one', 'two', 'one', 'two']);
});

test('a fast count is said faster, up to twice (assumption), and what would come late is left out', async () => {
  const { counting, heard, rates } = stage();
  vi.setSystemTime(1700);
  counting.follow(layout({ tempoBpm: 240, countInBars: 1 }));
  await vi.advanceTimersByTimeAsync(3000);
  // Beats of 250 ms from 1000 on: three are over.
  expect(heard.map(([word]) => word)).toEqual(['four']);
  expect(rates).toEqual([450 / 250]);
});

test.each([
  { says: 'nobody asked for it', how: { by: null } },
  { says: 'the device has no voice of its own', how: { voices: [{ lang: 'en-GB', localService: false }] } },
])('where $says nothing is said, and the click counts in alone', async ({ how }) => {
  const { counting, heard } = stage(how);
  counting.follow(layout());
  await vi.advanceTimersByTimeAsync(6000);
  expect(heard).toEqual([]);
});
