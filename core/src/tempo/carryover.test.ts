/** Carry-over: usual shares first, then those of this player, and always a little lower. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CarriedPair, carryOver, type Kept, usualShare } from './carryover.ts';

const kept = (of: Kept['of'], drums: Kept['drums'] = 'same'): Kept => ({ of, drums });
const pairs = (share: number, count: number, of: Kept = kept('rhythm')): readonly CarriedPair[] =>
  Array.from({ length: count }, () => ({ kept: of, share }));

describe('what comes over', () => {
  it('more where the movement is kept than the rhythm, and than neither; less on other drums (says: Meyer & Palmer 2003, the order)', () => {
    const shares = [kept('sticking'), kept('rhythm'), kept('nothing')].map((of) => carryOver(of).share);
    expect(shares).toEqual([...shares].sort((a, b) => b - a));
    expect(carryOver(kept('sticking', 'other')).share).toBeLessThan(shares[0]!);
  });

  it('is learnt from this player: many pairs at .7 end there (law: the prior is outweighed; 2 % of what is left)', () => {
    const few = carryOver(kept('rhythm'), pairs(0.7, 2)).share;
    const many = carryOver(kept('rhythm'), pairs(0.7, 60)).share;
    expect(few).toBeLessThan(usualShare(kept('rhythm')));
    expect(few).toBeGreaterThan(many);
    expect(Math.abs(many / 0.7 - 1)).toBeLessThan(0.02);
    expect(carryOver(kept('rhythm'), pairs(0.7, 2)).pairCount).toBe(2);
  });

  it('a player who loses much in one kind is expected to lose some in another (says: our choice)', () => {
    expect(carryOver(kept('nothing'), pairs(0.6, 8)).share).toBeLessThan(usualShare(kept('nothing')));
    expect(carryOver(kept('nothing'), pairs(0.6, 8)).pairCount).toBe(0);
  });

  it('is always lower than the known speed (says: JOB.md, each new setting is expected to start lower)', () => {
    fc.assert(
      fc.property(fc.float({ min: Math.fround(0.3), max: 2, noNaN: true }), fc.nat({ max: 40 }), (share, count) => {
        expect(carryOver(kept('sticking'), pairs(share, count, kept('sticking'))).share).toBeLessThan(1);
      }),
      { seed: 2, numRuns: 50 },
    );
  });
});
