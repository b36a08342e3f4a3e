import { expect, test } from 'vitest';
import { measure } from '../measurement/index.ts';
import { cycleOf, play } from '../measurement/play.case.ts';
import { normal, seededRandom } from '../random.ts';
import { say } from '../words/index.ts';
import { type TempoTake, tempoZones } from './zones.ts';

const cycle = cycleOf('RLRLKK', 4);

/** The second kick 22 ms early and 6 dB soft at some tempi, at the slowest as loud as the first where that is asked for; strokes vary by 5 ms and .5 dB. */
function takesAt(tempiBpm: readonly number[], off: (tempoBpm: number) => boolean, slowest: 'soft' | 'loud' = 'soft'): TempoTake[] {
  const random = seededRandom(9);
  return tempiBpm.map((tempoBpm) => {
    const stroke = (_: number, index: number) => {
      const fault = index === 5 && off(tempoBpm) ? { ms: -22, db: slowest === 'loud' && tempoBpm === tempiBpm[0] ? 0 : -6 } : { ms: 0, db: 0 };
      return { offMs: fault.ms + 5 * normal(random), db: fault.db + 0.5 * normal(random) };
    };
    const candidates = play(cycle, { cycles: 20, tempoBpm, stroke });
    return { cycle, measurement: measure(candidates, cycle, { tempoBpm, durationSec: candidates.at(-1)!.timeSec + 2 }).value! };
  });
}

const TEMPI = [72, 84, 96, 108, 120];

test.each([
  {
    when: 'from 96 on',
    off: (bpm: number) => bpm >= 96,
    says: 'The second kick comes too close to the first, and clearly softer from 16ths at 96 on; slower it holds.',
  },
  {
    when: 'at 96 and 108',
    off: (bpm: number) => bpm === 96 || bpm === 108,
    says: 'The second kick comes too close to the first, and clearly softer between 16ths at 96 and 108 only; slower and faster it holds.',
  },
  {
    when: 'up to 84',
    off: (bpm: number) => bpm <= 84,
    says: 'The second kick comes too close to the first, and clearly softer at 16ths at 84 and slower; faster it holds.',
  },
  { when: 'always', off: () => true, says: 'The second kick comes too close to the first, and clearly softer at every tempo played.' },
])('off $when: $says (closed form: the fault is what was planted)', ({ off, says }) => {
  expect(tempoZones(takesAt(TEMPI, off), { perBeat: 4 }).map((zone) => say(zone))).toContain(says);
});

test('early at every tempo and soft at all but the slowest: only what they have in common is said of all (closed form: the fault is what was planted)', () => {
  const told = tempoZones(
    takesAt(TEMPI, () => true, 'loud'),
    { perBeat: 4 },
  ).map((zone) => say(zone));
  expect(told).toContain('The second kick comes too close to the first at every tempo played.');
});

test('over several sittings, of which a diary keeps places and pairs only: the same zone, and nothing where nothing was off (says: the same takes with every stroke)', () => {
  const kept = (takes: readonly TempoTake[]) =>
    takes.map((take) => ({ ...take, measurement: { ...take.measurement, strokes: [], extra: [], grid: [] } }));
  const off = kept(takesAt(TEMPI, (bpm) => bpm >= 96));
  expect(tempoZones(off, { perBeat: 4 }).map((zone) => say(zone))).toContain(
    'The second kick comes too close to the first, and clearly softer from 16ths at 96 on; slower it holds.',
  );
  expect(tempoZones(kept(takesAt(TEMPI, () => false)), { perBeat: 4 })).toEqual([]);
});

test('nothing off, nothing told; one tempo has no zones', () => {
  expect(
    tempoZones(
      takesAt(TEMPI, () => false),
      { perBeat: 4 },
    ),
  ).toEqual([]);
  expect(
    tempoZones(
      takesAt([96], () => true),
      { perBeat: 4 },
    ),
  ).toEqual([]);
});
