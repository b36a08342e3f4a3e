import { describe, expect, test } from 'vitest';
import type { Loudness } from '../stroke/index.ts';
import { measure } from './measure.ts';
import { candidateAt, cycleOf } from './play.case.ts';

const cycle = cycleOf('RL', 2);
const cycles = 25;
/** The second stroke is heard in every other cycle only; at the times given nothing sounds at all. */
const heardAt = (n: number) => n % 2 === 0;
const silentCycle = 7;

/** Rows of 5 ms, two bands: −20 dB for 60 ms from every stroke on, −60 dB between them. */
function loudnessWith(addDb: number): Loudness {
  const rows = Math.ceil((cycles + 2) / 0.005);
  const powers = new Float32Array(2 * rows).fill(10 ** ((addDb - 60) / 10));
  for (let n = 0; n < 2 * cycles; n++) {
    if (n === 2 * silentCycle + 1) continue;
    const from = Math.round((0.5 + n / 2) / 0.005);
    powers.fill(10 ** ((addDb - 20) / 10), 2 * from, 2 * (from + 12));
  }
  return { rowSec: 0.005, fromSec: 0, bandCount: 2, powers };
}

const candidates = Array.from({ length: cycles }, (_, n) => [candidateAt(0.5 + n), ...(heardAt(n) ? [candidateAt(1 + n)] : [])]).flat();
const statusesWith = (addDb: number) =>
  measure(candidates, cycle, { tempoBpm: 60, durationSec: cycles + 2, loudness: loudnessWith(addDb) }).value!.strokes.filter(
    ({ index, status }) => index === 1 && status !== 'played',
  );

describe('strokes not found (says: EAR.md, a stroke too masked to tell is not audible, not missed)', () => {
  test.each([0, -30])('missed where it was quiet, not audible where it sounded as ever; %i dB change nothing', (addDb) => {
    const absent = statusesWith(addDb);
    expect(absent).toHaveLength((cycles - 1) / 2);
    for (const { cycle: n, status } of absent) expect(status).toBe(n === silentCycle ? 'missed' : 'notAudible');
  });
});
