/** The simulated player who practises learns, forgets and carries over as it was made to. */
import { describe, expect, it } from 'vitest';
import { seededRandom } from '../random.ts';
import { cleanRangesHz, drawLearner, limitHz, type Parts, playRuns, runOdds, sleep } from './learner.ts';

const PARTS: Parts = { sticking: 's', rhythm: 'r', drums: 'd', own: 'a' };
const SAME_STICKING: Parts = { sticking: 's', rhythm: 'q', drums: 'e', own: 'b' };
const OTHER: Parts = { sticking: 't', rhythm: 'q', drums: 'e', own: 'c' };
const drawn = (seed = 3) => drawLearner(seededRandom(seed));
const topOf = (learner: ReturnType<typeof drawn>) => cleanRangesHz(learner, PARTS, 0.85)[0]!.toHz;

/** Half an hour of runs near the edge. */
function worked(seed = 3, parts = PARTS) {
  const random = seededRandom(seed + 1000);
  const learner = drawn(seed);
  return playRuns(learner, parts, { speedHz: topOf(learner), runs: 600, random }).learner;
}

describe('a simulated player', () => {
  it('comes out clean as often as the closed form says (says: binomial, four deviations)', () => {
    const learner = drawn();
    const speedHz = topOf(learner);
    const { clean } = playRuns(learner, PARTS, { speedHz, runs: 4000, random: seededRandom(9) });
    expect(Math.abs(clean / 4000 - runOdds(learner, PARTS, speedHz))).toBeLessThan(0.023);
  });

  it('gets faster by practice, also in what shares the sticking, not in what shares nothing (says: issue 7, own carry-over)', () => {
    const gain = (parts: Parts) => limitHz(worked(), parts) / limitHz(drawn(), parts);
    expect(gain(PARTS)).toBeGreaterThan(gain(SAME_STICKING));
    expect(gain(SAME_STICKING)).toBeGreaterThan(1);
    expect(gain(OTHER)).toBe(1);
  });

  it('keeps part of it over night and loses more over weeks away (says: issue 7, forgetting)', () => {
    const after = (days: number) => limitHz({ ...sleep(worked(), { days, twins: () => false, random: seededRandom(1) }), form: 0 }, PARTS);
    expect(after(1)).toBeLessThan(limitHz(worked(), PARTS));
    expect(after(1)).toBeGreaterThan(limitHz(drawn(), PARTS));
    expect(after(60)).toBeLessThan(after(1));
  });

  it('learns most where 15.87 % of runs fail, Φ(−1) (says: FACTS.md 5, Wilson et al. 2019)', () => {
    const learner = drawn();
    const steady = { ...learner, traits: { ...learner.traits, slipShare: 0, second: null } };
    const tries = Array.from({ length: 400 }, (_, k) => {
      const speedHz = topOf(learner) * (0.8 + 0.001 * k);
      const after = playRuns(steady, PARTS, { speedHz, runs: 1, random: seededRandom(1) }).learner;
      return { failed: 1 - runOdds(steady, PARTS, speedHz), learnt: after.learnt.get('s')!.today };
    });
    const best = tries.reduce((most, one) => (one.learnt > most.learnt ? one : most));
    // A thousandth of the speed changes the odds by less than a hundredth there.
    expect(Math.abs(best.failed - 0.1587)).toBeLessThan(0.01);
  });

  it('loses part of the day’s gain to a near-twin played last (says: Allen 2013)', () => {
    const random = seededRandom(5);
    const ended = playRuns(worked(), SAME_STICKING, { speedHz: 2, runs: 1, random }).learner;
    const limit = (twins: boolean) => limitHz({ ...sleep(ended, { days: 1, twins: () => twins, random: seededRandom(1) }), form: 0 }, PARTS);
    expect(limit(true)).toBeLessThan(limit(false));
  });

  it('with a second technique is clean in two ranges, with a poor zone between (says: definition)', () => {
    const learner = drawn();
    const second = { ...learner, traits: { ...learner.traits, steepness: 12, second: { fromShare: 1.4, toShare: 2 } } };
    expect(cleanRangesHz(second, PARTS, 0.85)).toHaveLength(2);
    expect(cleanRangesHz(learner, PARTS, 0.85)).toHaveLength(1);
  });
});
