import { expect, test } from 'vitest';
import type { CapturedBlock } from '../../audio/capture.ts';
import type { TakeMeta } from '../../store/take-rows.ts';
import { createInput } from './input.ts';
import { createRecorder } from './recorder.ts';

const RATE = 48_000;
const BLOCK = 4800;
/** Of a sound that says by its samples which second it is. */
const SLOPE = 1e-3;
const meta: TakeMeta = {
  ...{ takeId: 't', sessionId: 's', sampleRateHz: RATE, fromFrame: 10 * RATE, wallMs0: 0 },
  ...{ latencySec: 0, latencyFrom: 'unknown', atMs: 0, zone: 'UTC', day: '2026-01-05' },
};

/** A microphone that hands on so many seconds of sound, each sample its own frame's. */
function microphone() {
  const port = { onmessage: null, close: () => {} } as unknown as MessagePort & { onmessage: (event: { data: CapturedBlock }) => void };
  const input = createInput(() => {});
  input.connect(port);
  const give = (fromSec: number, toSec: number) => {
    for (let frame = fromSec * RATE; frame < toSec * RATE; frame += BLOCK) {
      port.onmessage({ data: { frame, samples: Float32Array.from({ length: BLOCK }, (_, i) => ((frame + i) * SLOPE) / RATE) } });
    }
  };
  return { input, give };
}

const recorderOf = () => createRecorder(meta, { store: null, firstIndex: 0, onStroke: () => {}, onProblem: () => {} });
/** Seconds of the context at which it begins and ends. */
const held = async (recorder: ReturnType<typeof recorderOf>) => {
  const { unsaved } = await recorder.end();
  const samples = unsaved.flatMap((chunk) => [...chunk.samples]);
  return { fromSec: Math.round((samples[0]! / SLOPE) * RATE) / RATE, sec: samples.length / RATE };
};

test('a take asked for ahead holds its frames and no others, however late it is closed (arithmetic: from 10 s up to 11 s)', async () => {
  const { input, give } = microphone();
  const recorder = recorderOf();
  recorder.endsAt(11 * RATE);
  input.listen(recorder.hear);
  give(8, 14);
  expect(await held(recorder)).toMatchObject({ fromSec: expect.closeTo(10, 3), sec: 1 });
});

test('another end holds as soon as it is told', async () => {
  const { input, give } = microphone();
  const recorder = recorderOf();
  recorder.endsAt(11 * RATE);
  input.listen(recorder.hear);
  give(9, 10.5);
  recorder.endsAt(12 * RATE);
  give(10.5, 13);
  expect(await held(recorder)).toMatchObject({ fromSec: expect.closeTo(10, 3), sec: 2 });
});

test('a take asked for after its first frame is given what lies up to half a minute back; sticks are listened for in the last two seconds alone', () => {
  const { input, give } = microphone();
  const earliestSec = (keptFrames?: number) => {
    const frames: number[] = [];
    input.listen(({ frame }) => frames.push(frame), keptFrames)();
    return Math.min(...frames) / RATE;
  };
  give(5, 25);
  expect(earliestSec()).toBe(5);
  expect(earliestSec(2 * RATE)).toBeCloseTo(23 - BLOCK / RATE, 9);
  give(25, 40);
  expect(earliestSec()).toBeCloseTo(10 - BLOCK / RATE, 9);
});
