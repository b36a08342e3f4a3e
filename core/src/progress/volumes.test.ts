/** Mean volumes then and now, against sums done by hand. */
import { describe, expect, it } from 'vitest';
import type { Measurement } from '../measurement/index.ts';
import { say } from '../words/index.ts';
import { madeMeasurement } from './made.case.ts';
import type { ReferenceTake } from './thenandnow.ts';
import { volumesThenAndNow } from './volumes.ts';

/** RLKK: two hands on the snare, a pair of kicks with a step. */
function take(kicks: readonly [number, number], snareDb: readonly [number, number] = [-20, -20]): ReferenceTake {
  const made = madeMeasurement([
    { limb: 'R', levelDb: snareDb[0] },
    { limb: 'L', levelDb: snareDb[1] },
    { limb: 'K', levelDb: kicks[0] },
    { limb: 'K', levelDb: kicks[1] },
  ]);
  const pair = { first: 2, second: 3, limb: 'K', gapMs: 150, gapShare: 1, gapLow: 0.9, gapHigh: 1.1, extraBounces: 0, unsure: false } as const;
  const measurement: Measurement = { ...made, pairs: [{ ...pair, levelStepDb: kicks[1] - kicks[0] }] };
  return { day: '2025-01-06', measurement, drums: ['snare', 'snare', 'kick', 'kick'], setup: {} };
}

describe('mean volumes', () => {
  it('says: issue 3, the second kick clearly softer then, a little softer now; the figures behind it', () => {
    const { said, steps } = volumesThenAndNow(take([-12, -18]), take([-12, -14]));
    expect(said.map((statement) => say(statement))).toEqual(['Stroke 4 against stroke 3 (kick): clearly softer then, a little softer now.']);
    expect(steps).toEqual([{ first: 2, second: 3, limb: 'K', thenDb: -6, nowDb: -2 }]);
  });

  it('arithmetic: −12 and −18 lie 3 dB either side of their mean, and a whole take louder changes nothing', () => {
    const { places } = volumesThenAndNow(take([-12, -18]), take([-2, -8], [-10, -10]));
    for (const at of ['thenDb', 'nowDb'] as const) expect(places.map((place) => place[at])).toEqual([0, 0, 3, -3]);
  });

  it('a pair alike then and now needs no word, and one that was not heard gets none', () => {
    expect(volumesThenAndNow(take([-12, -12.5]), take([-12, -11.5])).said).toEqual([]);
    const lost = take([-12, -18]);
    const unheard = { ...lost, measurement: { ...lost.measurement, pairs: lost.measurement.pairs.map((pair) => ({ ...pair, levelStepDb: null })) } };
    expect(volumesThenAndNow(unheard, take([-12, -14])).said).toEqual([]);
  });

  it('a drum with one place has nothing to be held against', () => {
    const alone = { ...take([-12, -18]), drums: ['snare', 'snare', 'kick', 'floor tom'] };
    expect(volumesThenAndNow(alone, alone).places.slice(2)).toMatchObject([{ thenDb: null }, { thenDb: null }]);
  });
});
