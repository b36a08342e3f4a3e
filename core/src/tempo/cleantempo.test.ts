/** The clean tempo against the worked fit, its own promise of 90 %, and what it must not claim. */
import { describe, expect, it } from 'vitest';
import { seededRandom } from '../random.ts';
import { cleanOdds, whereOddsAre } from './belief.ts';
import { type CleanTempo, cleanTempo } from './cleantempo.ts';
import type { WeighedResult } from './tempobelief.ts';

/** FACTS.md 6: 10, 9, 7, 3, 1 of 10 runs clean at 80 to 120. */
const WORKED: readonly WeighedResult[] = [10, 9, 7, 3, 1].map((clean, i) => ({ tempoBpm: 80 + 10 * i, clean, runs: 10 }));
const known = (results: readonly WeighedResult[], today?: string) => cleanTempo(results, today) as CleanTempo;

describe('clean tempo', () => {
  it('of the worked example holds the maximum-likelihood 85 % tempo 94.38 (says: FACTS.md 6), its median within 3 %', () => {
    // The fit there is on tempo without lapse, here on log tempo with 2 %: 3 % is the smallest step that is ever proposed.
    const { median, low90, high90, runs } = known(WORKED);
    expect(low90).toBeLessThan(94.384484);
    expect(high90).toBeGreaterThan(94.384484);
    expect(Math.abs(median / 94.384484 - 1)).toBeLessThan(0.03);
    expect(runs).toBe(50);
  });

  it('its 90 % intervals hold the true tempo in 83 to 97 of 100 simulated players (says: definition; 4 standard errors of 300 players are 7)', () => {
    const random = seededRandom(20250106);
    const players = Array.from({ length: 400 }, () => simulate(random)).filter(({ estimate }) => estimate.known);
    const held = players.filter(({ estimate, truth }) => (estimate as CleanTempo).low90 <= truth && truth <= (estimate as CleanTempo).high90);
    expect(players.length).toBeGreaterThan(300);
    expect(held.length / players.length).toBeGreaterThan(0.83);
    expect(held.length / players.length).toBeLessThan(0.97);
  });

  it('doubling tempi doubles it (law: it works on log tempo; the grid is 1 %)', () => {
    const twice = known(WORKED.map((result) => ({ ...result, tempoBpm: 2 * result.tempoBpm })));
    expect(twice.median / known(WORKED).median).toBeCloseTo(2, 2);
  });

  it('does not depend on the order of results, nor on how runs are grouped', () => {
    const single = WORKED.flatMap(({ tempoBpm, clean, runs }) =>
      Array.from({ length: runs }, (_, k) => ({ tempoBpm, clean: k < clean ? 1 : 0, runs: 1 })),
    );
    expect(known(single.reverse()).median).toBeCloseTo(known(WORKED).median, 9);
  });

  it('the player’s word counts, with less weight: the interval is wider', () => {
    const widthOf = ({ low90, high90 }: CleanTempo) => high90 / low90;
    expect(widthOf(known(WORKED.map((result) => ({ ...result, byEar: false }))))).toBeGreaterThan(widthOf(known(WORKED)));
  });

  it('follows the newer results: after a month, what was then counts little', () => {
    const then = WORKED.map((result) => ({ ...result, day: '2025-01-06' }));
    const now = WORKED.map((result) => ({ ...result, tempoBpm: result.tempoBpm * 1.25, day: '2025-02-05' }));
    // Thirty days are more than four half-lives: the old results weigh a twentieth.
    expect(known([...then, ...now], '2025-02-05').median / known(now, '2025-02-05').median).toBeGreaterThan(0.96);
    expect(known([...then, ...now], '2025-01-06').median).toBeCloseTo(known(then, '2025-01-06').median, 9);
  });
});

describe('too little is said', () => {
  it.each([
    { results: [], code: 'clean-tempo-few-runs' },
    { results: [{ tempoBpm: 80, clean: 3, runs: 3 }], code: 'clean-tempo-few-runs' },
    { results: [{ tempoBpm: 80, clean: 20, runs: 20 }], code: 'clean-tempo-all-clean' },
    { results: [{ tempoBpm: 80, clean: 0, runs: 20 }], code: 'clean-tempo-none-clean' },
    { results: [{ tempoBpm: 80, clean: 6, runs: 8 }], code: 'clean-tempo-wide' },
  ])('$code', ({ results, code }) => {
    const estimate = cleanTempo(results);
    expect(estimate.known).toBe(false);
    expect(!estimate.known && estimate.why.code).toBe(code);
  });
});

/** A player with a curve of her own, 40 runs by a plain rule: four at a tempo, up 4 % when all are clean, down 6 % when two are not. */
function simulate(random: () => number) {
  const curve = { threshold: Math.log(60 + 80 * random()), slope: 0.03 + 0.06 * random(), lapse: 0.02 };
  const truth = Math.exp(whereOddsAre(0.85, curve));
  const results: WeighedResult[] = [];
  let tempoBpm = truth * (0.8 + 0.3 * random());
  for (let block = 0; block < 10; block++) {
    const clean = Array.from({ length: 4 }, () => (random() < cleanOdds(Math.log(tempoBpm), curve) ? 1 : 0)).reduce<number>(
      (sum, one) => sum + one,
      0,
    );
    results.push({ tempoBpm, clean, runs: 4 });
    tempoBpm *= clean === 4 ? 1.04 : clean <= 2 ? 0.94 : 1;
  }
  return { truth, estimate: cleanTempo(results) };
}
