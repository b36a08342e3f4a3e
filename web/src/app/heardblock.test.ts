import { type Exercise, expectedCycle, ownExercise, readContent } from '@evenhand/core/exercise';
import { readSticking } from '@evenhand/core/sticking';
import { expect, test } from 'vitest';
import type { MeasuredTake } from '../worker/protocol.ts';
import { heardBlock } from './heardblock.ts';

test('where what was played does not fit the sticking no run is counted and the tempo stays (found by living a week of it, issue 8)', () => {
  const exercise: Exercise = ownExercise(readContent(readSticking('RLRL').value!, { perBeat: 4 }).value!, 'Singles');
  const said = { code: 'x', params: {} };
  const block = { exercise, cycle: expectedCycle(exercise), minutes: 1, tempoBpm: 62, aim: said, reason: said };
  // Every stroke there and in time: without the doubt these were clean runs.
  const strokes = Array.from({ length: 64 }, (_, k) => ({
    cycle: Math.floor(k / 4),
    index: k % 4,
    status: 'played',
    errorMs: 0,
    confidence: 1,
    levelDb: -20,
  }));
  const doubt = { code: 'sticking-in-doubt', params: {}, cause: 'none', indices: [], weight: 0 } as const;
  const take = { findings: [doubt], measurement: { strokes } } as unknown as MeasuredTake;
  const earlier = [{ tempoBpm: 62, clean: 8, runs: 8, byEar: true }];
  const heard = heardBlock(block, { value: take, problems: [] }, { earlier, stretches: [{ tempoBpm: 62, measured: take } as never] });
  expect(heard).toMatchObject({ said: { code: 'block-of-else' }, clean: 0, runs: 0, nextTempoBpm: 62 });
});
