/** The laws of the hybrid logical clock. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareMade, nextStamp, observe } from './clock.ts';
import type { Made } from './record.ts';

const made = fc.record({ wallMs: fc.integer({ min: 0, max: 5 }), counter: fc.integer({ min: 0, max: 3 }), deviceId: fc.constantFrom('a', 'b', 'c') });

describe('stamps', () => {
  it('rise whatever the wall clock does', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 2_000_000_000_000 }), { minLength: 2 }), (walls) => {
        let last: Made | null = null;
        for (const wallMs of walls) {
          const next: Made = nextStamp(last, wallMs, 'a');
          expect(last === null || compareMade(next, last) > 0).toBe(true);
          expect(next.wallMs).toBeGreaterThanOrEqual(wallMs);
          last = next;
        }
      }),
    );
  });

  it('follow the wall clock as soon as it is ahead again', () => {
    const before = nextStamp(null, 2000, 'a');
    const setBack = nextStamp(before, 1000, 'a');
    expect(setBack).toEqual({ wallMs: 2000, counter: 1, deviceId: 'a' });
    expect(nextStamp(setBack, 2001, 'a')).toEqual({ wallMs: 2001, counter: 0, deviceId: 'a' });
  });

  it('are in one order: exactly one of before, after, equal, and the order carries on', () => {
    fc.assert(
      fc.property(made, made, made, (a, b, c) => {
        expect(Math.sign(compareMade(a, b))).toBe(0 - Math.sign(compareMade(b, a)));
        expect(compareMade(a, b) === 0).toBe(JSON.stringify(a) === JSON.stringify(b));
        if (compareMade(a, b) < 0 && compareMade(b, c) < 0) expect(compareMade(a, c)).toBeLessThan(0);
      }),
    );
  });

  it('come after what was seen from elsewhere, unless that is more than a day ahead', () => {
    const seen: Made = { wallMs: 5000, counter: 7, deviceId: 'z' };
    expect(compareMade(nextStamp(observe(null, seen, 1000), 1000, 'a'), seen)).toBeGreaterThan(0);
    expect(observe(null, { ...seen, wallMs: 1000 + 86_400_001 }, 1000)).toBe(null);
    expect(observe({ ...seen, counter: 8 }, seen, 1000)).toEqual({ ...seen, counter: 8 });
  });
});
