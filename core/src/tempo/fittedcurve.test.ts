/** Fits against the worked numbers of FACTS.md 6. */
import { describe, expect, it } from 'vitest';
import { whereOddsAre } from './belief.ts';
import { fitCurve, spearmanKaerber } from './fittedcurve.ts';

const WORKED = [10, 9, 7, 3, 1].map((clean, i) => ({ x: 80 + 10 * i, clean, runs: 10 }));

describe('ten runs each at 80, 90, 100, 110, 120; clean 10, 9, 7, 3, 1', () => {
  it('fit best α = 105.185203, s = 6.226630 (says: FACTS.md 6, scipy), 80 % at 96.553261, 85 % at 94.384484; tolerance .001 as given there', () => {
    const curve = fitCurve(WORKED)!;
    expect([curve.threshold, curve.slope, curve.lapse]).toEqual([expect.closeTo(105.185203, 3), expect.closeTo(6.22663, 3), 0]);
    expect([whereOddsAre(0.8, curve), whereOddsAre(0.85, curve)]).toEqual([expect.closeTo(96.553261, 3), expect.closeTo(94.384484, 3)]);
  });

  it('have the Spearman–Kärber mean 105.0 (says: FACTS.md 6)', () => {
    expect(spearmanKaerber(WORKED)).toBeCloseTo(105, 9);
  });

  it('come out the same in any order', () => {
    expect(fitCurve([...WORKED].reverse())!.threshold).toBeCloseTo(fitCurve(WORKED)!.threshold, 9);
  });
});

it.each([
  { name: 'nothing falls off', clean: [5, 5, 5] },
  { name: 'faster is cleaner', clean: [1, 5, 9] },
  { name: 'from all to none at once', clean: [10, 10, 0] },
])('no curve where $name (says: definition of the fit)', ({ clean }) => {
  expect(fitCurve(clean.map((count, i) => ({ x: 80 + 10 * i, clean: count, runs: 10 })))).toBe(null);
});

it('one place alone has neither (says: definition)', () => {
  expect([fitCurve(WORKED.slice(0, 1)), spearmanKaerber(WORKED.slice(0, 1))]).toEqual([null, null]);
});
