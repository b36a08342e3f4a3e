import type { Measurement } from '@evenhand/core/measurement';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { Engine } from '../audio/engine.ts';
import { emptyPhrase } from './phrase.ts';
import { materialOf } from './planning.ts';
import type { Room } from './room.ts';
import { runSearch, type SearchState } from './search.ts';

const RATE_HZ = 48_000;
const exercise = materialOf({ ...emptyPhrase, sticking: 'RLRLKK', tempo: '92' }, { first: 4, last: 5 })!.phrase;

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

/** An engine that goes by the clock of the test; its ear finds every stroke in time up to a tempo, and every second one late beyond it. */
function stage(microphone: boolean, limitBpm: number) {
  const startMs = Date.now();
  const clicks: number[] = [];
  const engine = {
    sampleRateHz: RATE_HZ,
    microphone: microphone ? { deviceId: 'm', label: 'm' } : null,
    nextFrame: () => Math.round(((Date.now() - startMs) * RATE_HZ) / 1000),
    wallMsOf: () => 0,
    schedule: (more: readonly unknown[]) => void clicks.push(more.length),
    cancelClicks: () => {},
  } as unknown as Engine;
  const take = { value: { takeId: 't' }, problems: [] };
  const ear = {
    openTake: async () => ({ value: true, problems: [] }),
    closeTake: async () => take,
    measureTake: async ({ tempoBpm }: { readonly tempoBpm: number }) => ({
      value: { measurement: heardAt(tempoBpm, limitBpm), findings: [] },
      problems: [],
    }),
  };
  let ids = 0;
  const counting = () => ({ follow: () => {} });
  const room = {
    ear: () => ear,
    counting,
    newId: () => `id${ids++}`,
    writtenNow: () => ({ atMs: 0, zone: 'UTC', day: '2026-01-05' }),
  } as unknown as Room;
  return { engine, room, clicks };
}

/** One bar of sixteen strokes of RLRLKK. */
function heardAt(tempoBpm: number, limitBpm: number): Measurement {
  const strokes = Array.from({ length: 16 }, (_, k) => ({
    ...{ cycle: Math.floor(k / 6), index: k % 6, limb: 'RLRLKK'[k % 6]!, status: 'played', confidence: 1, levelDb: -10, graces: [] },
    ...{ expectedSec: (k * 15) / tempoBpm, playedSec: (k * 15) / tempoBpm, errorMs: tempoBpm > limitBpm && k % 2 === 1 ? 60 : 0 },
  }));
  return { tempoBpm, trackedBpm: tempoBpm, offsetMs: 0, grid: [], strokes, extra: [], places: [], pairs: [] } as unknown as Measurement;
}

async function searched({ microphone, limitBpm, answerSec = 1 }: { microphone: boolean; limitBpm: number; answerSec?: number }) {
  const { engine, room, clicks } = stage(microphone, limitBpm);
  const parts = new Set<SearchState['part']>();
  const began = Date.now();
  let answered = 0;
  const run = runSearch({
    ...{ room, engine, exercise, expectedBpm: 80, sessionId: 's', judged: {}, onProblems: () => {} },
    onState(state) {
      parts.add(state.part);
      if (state.part !== 'asking' || answered === state.step) return;
      answered = state.step;
      setTimeout(() => run.say(state.tempoBpm <= limitBpm ? 'hadIt' : 'again'), 1000 * answerSec);
    },
  });
  let found: Awaited<typeof run.over> | null = null;
  void run.over.then((given) => (found = given));
  while (!found) await vi.advanceTimersByTimeAsync(50);
  return { found: found as Awaited<typeof run.over>, parts, sec: (Date.now() - began) / 1000, clicks };
}

test('by ear: ends within two minutes of the clock, its range holds the tempo up to which runs come off (issue 7)', async () => {
  for (const limitBpm of [68, 84, 95]) {
    const { found, parts, sec, clicks } = await searched({ microphone: true, limitBpm });
    expect(sec).toBeLessThan(120);
    expect(found.lowBpm).toBeLessThan(limitBpm);
    expect(found.highBpm).toBeGreaterThan(limitBpm * 0.95);
    expect(found.steps.every(({ byEar, runs }) => byEar && runs === 2)).toBe(true);
    // A bar counted in and one played, a click on each beat.
    expect(new Set(clicks)).toEqual(new Set([8]));
    expect([...parts].sort()).toEqual(['countIn', 'getReady', 'judging', 'play']);
  }
});

test('by the player’s word, slowly given: within two minutes too, one run a word (issue 7, by ear or by own word)', async () => {
  const { found, parts, sec } = await searched({ microphone: false, limitBpm: 84, answerSec: 2.5 });
  expect(sec).toBeLessThan(120);
  expect(found.steps.every(({ byEar, runs }) => !byEar && runs === 1)).toBe(true);
  expect(parts.has('asking')).toBe(true);
  expect(Math.abs(found.medianBpm / 84 - 1)).toBeLessThan(0.12);
});

test('ended early it gives what there is', async () => {
  const { engine, room } = stage(false, 84);
  const run = runSearch({ room, engine, exercise, expectedBpm: 80, sessionId: 's', judged: {}, onProblems: () => {}, onState: () => {} });
  await vi.advanceTimersByTimeAsync(500);
  run.stop();
  await vi.advanceTimersByTimeAsync(200);
  expect((await run.over).steps).toEqual([]);
});

test('bars of which nothing can be told end it after three, and nothing is found', async () => {
  const { engine, room } = stage(true, 84);
  const ear = room.ear() as unknown as { measureTake: unknown };
  ear.measureTake = async () => ({ value: null, problems: [] });
  const run = runSearch({ room, engine, exercise, expectedBpm: 80, sessionId: 's', judged: {}, onProblems: () => {}, onState: () => {} });
  const began = Date.now();
  let over = false;
  void run.over.then(() => (over = true));
  while (!over) await vi.advanceTimersByTimeAsync(50);
  expect((await run.over).steps).toEqual([]);
  expect((Date.now() - began) / 1000).toBeLessThan(30);
});
