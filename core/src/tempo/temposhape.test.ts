/** A poor zone between two ways of playing is told, and none where there is none. */
import { describe, expect, it } from 'vitest';
import { cleanTempo } from './cleantempo.ts';
import { tempoShape } from './temposhape.ts';

/** Clean shares at tempi, twenty runs each. */
const at = (shares: Readonly<Record<number, number>>) =>
  Object.entries(shares).map(([tempoBpm, share]) => ({ tempoBpm: Number(tempoBpm), runs: 20, clean: Math.round(20 * share) }));

const FALLING = at({ 70: 1, 80: 1, 90: 0.9, 100: 0.6, 110: 0.2, 120: 0 });
const HOLE = at({ 70: 1, 76: 0.95, 82: 0.85, 88: 0.3, 92: 0.2, 98: 0.3, 104: 0.9, 110: 0.95, 116: 0.85, 124: 0.3 });
const LIMIT = at({ 60: 0.1, 66: 0.2, 72: 0.9, 80: 0.95, 90: 0.95, 100: 0.85, 110: 0.4 });

describe('shape of clean runs over tempo (says: definition of the made results)', () => {
  it('a fall is a fall', () => {
    expect(tempoShape(FALLING)).toEqual({ kind: 'falling' });
  });

  it('poor between 85 and 101, clean on both sides: both ranges are told', () => {
    const shape = tempoShape(HOLE);
    expect(shape.kind).toBe('hole');
    if (shape.kind !== 'hole') return;
    // Edges lie between the tempi that were played: within one of them, 7 %.
    expect(Math.abs(shape.fromBpm / 85 - 1)).toBeLessThan(0.07);
    expect(Math.abs(shape.toBpm / 101 - 1)).toBeLessThan(0.07);
    const estimate = cleanTempo(HOLE);
    expect(estimate.known && estimate.median).toBeLessThan(90);
    expect(estimate.known && estimate.above!.median).toBeGreaterThan(108);
  });

  it('clean from 69 on only: a lower limit', () => {
    const shape = tempoShape(LIMIT);
    expect(shape.kind).toBe('lowerLimit');
    expect(shape.kind === 'lowerLimit' && Math.abs(shape.fromBpm / 69 - 1) < 0.07).toBe(true);
  });

  it('one unlucky block is no poor zone', () => {
    expect(tempoShape([...at({ 80: 1, 100: 0.9, 110: 0.5 }), { tempoBpm: 90, runs: 6, clean: 4 }])).toEqual({ kind: 'falling' });
  });

  it('the player’s word alone tells no shape', () => {
    expect(tempoShape(HOLE.map((result) => ({ ...result, byEar: false })))).toEqual({ kind: 'falling' });
  });

  it('who became faster at once has no poor zone: slow runs failed before, and in the zone it is clean now (says: issue 9, a dip to 80 between 94 and 99 on a day of clean runs)', () => {
    // Day, tempo, clean runs of 12: the simulated drummer of bench/progress around a lesson on 23 September.
    const days: readonly (readonly [day: string, tempoBpm: number, clean: number])[] = [
      ['06-30', 70, 10],
      ['07-01', 70, 10],
      ['07-02', 70, 11],
      ['07-06', 84, 0],
      ['07-06', 70, 10],
      ['07-07', 70, 12],
      ['07-09', 73, 11],
      ['07-12', 73, 6],
      ['07-13', 84, 3],
      ['07-13', 73, 9],
      ['07-14', 70, 9],
      ['07-15', 70, 10],
      ['07-16', 70, 8],
      ['07-19', 70, 10],
      ['07-20', 84, 0],
      ['07-20', 70, 11],
      ['08-09', 56, 12],
      ['08-10', 59, 12],
      ['08-11', 63, 11],
      ['08-12', 70, 9],
      ['08-13', 70, 8],
      ['08-16', 70, 11],
      ['08-17', 84, 2],
      ['08-17', 70, 11],
      ['08-19', 70, 11],
      ['08-20', 70, 11],
      ['08-23', 70, 11],
      ['08-24', 84, 4],
      ['08-24', 73, 10],
      ['08-25', 73, 10],
      ['08-30', 73, 10],
      ['08-31', 84, 6],
      ['08-31', 73, 11],
      ['09-01', 73, 11],
      ['09-03', 76, 8],
      ['09-17', 76, 10],
      ['09-20', 76, 11],
      ['09-21', 84, 0],
      ['09-21', 76, 8],
      ['09-22', 76, 6],
      ['09-23', 73, 12],
      ['09-27', 77, 12],
      ['09-29', 81, 12],
      ['09-30', 86, 11],
      ['10-01', 86, 12],
      ['10-05', 84, 12],
      ['10-05', 90, 11],
      ['10-06', 90, 11],
      ['10-07', 90, 10],
      ['10-08', 90, 12],
      ['10-11', 93, 12],
    ];
    const results = days.map(([day, tempoBpm, clean]) => ({ day: `2026-${day}`, tempoBpm, clean, runs: 12 }));
    expect(tempoShape(results, '2026-10-11')).toEqual({ kind: 'falling' });
    const estimate = cleanTempo(results, '2026-10-11');
    expect(estimate.known && estimate.median).toBeGreaterThan(90);
    // The same of which the zone failed again on the last day.
    expect(tempoShape([...results, { day: '2026-10-11', tempoBpm: 82, clean: 2, runs: 12 }], '2026-10-11').kind).toBe('hole');
  });
});
