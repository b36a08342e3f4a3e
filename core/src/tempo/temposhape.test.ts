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
});
