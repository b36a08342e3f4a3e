import type { Problem } from '@evenhand/core/problem';
import { expect, test } from 'vitest';
import type { Click } from '../audio/click.ts';
import type { Engine } from '../audio/engine.ts';
import type { EarClient } from '../worker/client.ts';
import { beginRecording, countInAt, endRecording } from './recording.ts';
import type { Room } from './room.ts';

const RATE = 48_000;

function standIn(microphone: boolean) {
  const clicks: Click[] = [];
  const counted: unknown[] = [];
  const told: object[] = [];
  let frame = 5_000;
  let closed = 0;
  const denied: Problem = { code: 'microphone-denied', severity: 'doubtful', params: {} };
  const engine = {
    sampleRateHz: RATE,
    microphone: microphone ? {} : null,
    clickSound: 'low',
    nextFrame: () => frame,
    wallMsOf: () => 0,
    schedule: (more: readonly Click[]) => clicks.push(...more),
    cancelClicks: () => {},
    close: async () => {
      closed++;
    },
  } as unknown as Engine;
  const ear = {
    listenTo: () => {},
    openTake: async () => ({ value: true, problems: [] }),
    closeTake: async (ask: { takeId: string }) => {
      told.push(ask);
      return { value: { takeId: ask.takeId }, problems: [] };
    },
  } as unknown as EarClient;
  const room = {
    counting: () => ({ follow: (layout: unknown) => counted.push(layout) }),
    openEngine: async () => ({ value: engine, problems: microphone ? [] : [denied] }),
    ear: () => ear,
    newId: () => 'take',
    writtenNow: () => ({ atMs: 0, zone: 'UTC', day: '2026-01-05' }),
  } as unknown as Room;
  return { room, clicks, counted, told, closedCount: () => closed, moveTo: (next: number) => (frame = next) };
}

test('a take with a click: two bars counted in at 120, the phrase expected from the bar line after (arithmetic: 2 bars of 2 s, first click 1.5 s after the start)', async () => {
  const { room, clicks, counted, told, moveTo } = standIn(true);
  const recording = (await beginRecording(room, { tempoBpm: 120, withClick: true })).value!;
  expect(clicks[0]).toMatchObject({ frame: 5_000 + 72_000, voice: 'bar' });
  expect(clicks[1]).toMatchObject({ frame: 5_000 + 72_000 + 24_000, voice: 'beat' });
  expect(countInAt(recording, 5_000 + 72_000 + 5 * 24_000)).toEqual({ bar: 2, beat: 2 });
  expect(countInAt(recording, 5_000 + 72_000 + 8 * 24_000)).toBeNull();
  moveTo(5_000 + 20 * RATE);
  const taken = (await endRecording(room, recording)).value!;
  expect(taken.spans).toEqual([{ fromSec: 5.5, toSec: 20, fromBeat: 0 }]);
  expect(taken.clicksSec[0]).toBe(1.5);
  expect(taken.clicksSec.at(-1)).toBe(19.5);
  // The ear is told in which sound, and the voice that counts in is hushed with it.
  expect(told).toMatchObject([{ clickSound: 'low' }]);
  expect(counted).toEqual([recording.layout, null]);
});

test('a take without a click knows of none and may be the phrase from its beginning', async () => {
  const { room, clicks } = standIn(true);
  const recording = (await beginRecording(room, { tempoBpm: 120, withClick: false })).value!;
  const taken = (await endRecording(room, recording)).value!;
  expect([clicks, taken.clicksSec, taken.spans]).toEqual([[], [], null]);
});

test('without a microphone there is no recording, the reason is told and the sound is closed again', async () => {
  const { room, closedCount } = standIn(false);
  const begun = await beginRecording(room, { tempoBpm: 120, withClick: true });
  expect(begun.value).toBeNull();
  expect(begun.problems.map(({ code }) => code)).toEqual(['microphone-denied']);
  expect(closedCount()).toBe(1);
});
