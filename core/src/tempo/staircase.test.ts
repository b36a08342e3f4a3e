/** Staircases against the published targets. */
import { describe, expect, it } from 'vitest';
import { settlesAt, stepRatio } from './staircase.ts';

describe('where a staircase settles', () => {
  it.each([
    { inARow: 1, target: 0.5 },
    { inARow: 2, target: Math.SQRT1_2 },
    { inARow: 3, target: 0.793701 },
    { inARow: 4, target: 0.840896 },
  ])('equal steps, harder after $inARow in a row: $target (says: FACTS.md 6, Levitt 1971)', ({ inARow, target }) => {
    expect(settlesAt(1, inARow)).toBeCloseTo(target, 5);
  });

  // There the ratio is harder over easier, and it is the step down in signal that is made after `inARow` in a row.
  it.each([
    { inARow: 1, ratio: 0.2845, target: 0.7785 },
    { inARow: 2, ratio: 0.5488, target: 0.8035 },
    { inARow: 3, ratio: 0.7393, target: 0.8315 },
    { inARow: 4, ratio: 0.8415, target: 0.8584 },
  ])('harder by $ratio of the easier step after $inARow in a row: $target (says: FACTS.md 6, García-Pérez 1998)', ({ inARow, ratio, target }) => {
    expect(settlesAt(1 / ratio, inARow)).toBeCloseTo(target, 3);
  });

  it.each([
    { target: 0.75, ratio: 3 },
    { target: 0.8, ratio: 4 },
    { target: 0.8413447, ratio: 5.302973 },
    { target: 0.85, ratio: 5.666667 },
    { target: 0.9, ratio: 9 },
  ])('to settle at $target the step to easier is $ratio times that to harder (says: Kaernbach 1991)', ({ target, ratio }) => {
    expect(stepRatio(target)).toBeCloseTo(ratio, 5);
    expect(settlesAt(ratio)).toBeCloseTo(target, 6);
  });
});
