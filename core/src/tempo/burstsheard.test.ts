import { expect, test } from 'vitest';
import { reachSoFar, usualReach } from '../kit/index.ts';
import { burstsHeard, type HeardStroke } from './index.ts';

/** RLRLKK over and over in sixteenths; kicks off by so much. */
const take = (tempoBpm: number, kickErrorMs: number, status: HeardStroke['status'] = 'played'): readonly HeardStroke[] =>
  Array.from({ length: 120 }, (_, i) => {
    const limb = (['R', 'L', 'R', 'L', 'K', 'K'] as const)[i % 6]!;
    const kick = limb === 'K';
    return { limb, status: kick ? status : 'played', expectedSec: (i * 15) / tempoBpm, errorMs: kick ? kickErrorMs : 0 };
  });

test('arithmetic: sixteenths at 96 are 6.4 a second: kicks 18 ms late (3 × 6 ms) are clean pairs at 6.4, 19 ms late are not', () => {
  const pair = (errorMs: number) => burstsHeard(take(96, errorMs)).find(({ limb, burst }) => limb === 'K' && burst === 2)!;
  expect(pair(17.9)).toMatchObject({ clean: true });
  expect(pair(17.9).perSec).toBeCloseTo(6.4, 9);
  expect(pair(19)).toMatchObject({ clean: false });
});

test('DESIGN.md, kit: the reach is this player’s own where there are takes, never “impossible”: it comes back down, and up again', () => {
  const usual = usualReach().K[2];
  const failed = burstsHeard(take(180, 40));
  expect(reachSoFar(failed).K[2]).toBeCloseTo(12, 9);
  expect(reachSoFar(failed).K[2]).toBeLessThan(usual);
  expect(reachSoFar([...failed, ...burstsHeard(take(240, 0))]).K[2]).toBeGreaterThan(16);
});

test('kicks that could not be heard say nothing of the foot', () => {
  expect(burstsHeard(take(96, 0, 'notAudible')).some(({ limb }) => limb === 'K')).toBe(false);
  expect(burstsHeard([])).toEqual([]);
});
