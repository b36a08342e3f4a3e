/** What is believed of a clean tempo, moved by results and loosened by days. */
import { describe, expect, it } from 'vitest';
import { addDays } from '../day.ts';
import { believe, believedOdds, type TempoBelief, tempoBelow, type WeighedResult } from './tempobelief.ts';

const DAY = '2026-01-05';
const RESULTS: readonly WeighedResult[] = [10, 9, 7, 3, 1].map((clean, i) => ({ tempoBpm: 80 + 10 * i, clean, runs: 10, day: DAY }));
const medianOf = (belief: TempoBelief) => tempoBelow(belief, 0.5);
const widthOf = (belief: TempoBelief) => tempoBelow(belief, 0.95) / tempoBelow(belief, 0.05);

describe('what days do', () => {
  it('each day away makes it less sure (says: issue 7, uncertainty growing with days away)', () => {
    const widths = [0, 1, 3, 7, 14, 30].map((days) => widthOf(believe(RESULTS, { today: addDays(DAY, days) })));
    for (const [i, width] of widths.slice(1).entries()) expect(width).toBeGreaterThan(widths[i]!);
  });

  it('a night after practice moves it up a little, a month without moves it down again (says: issue 7, learning and forgetting)', () => {
    const at = (days: number) => medianOf(believe(RESULTS, { today: addDays(DAY, days) }));
    expect(at(1)).toBeGreaterThan(at(0));
    expect(at(40)).toBeLessThan(at(1));
  });

  it('days over which clocks change count as days (says: calendar, 2026-03-29 and 2026-10-25)', () => {
    const spring = RESULTS.map((result) => ({ ...result, day: '2026-03-28' }));
    const winter = RESULTS.map((result) => ({ ...result, day: '2026-01-10' }));
    expect(medianOf(believe(spring, { today: '2026-03-30' }))).toBe(medianOf(believe(winter, { today: '2026-01-12' })));
  });
});

describe('what a result is worth', () => {
  it('a result the ear was half sure of moves it less (says: issue 7, by confidence)', () => {
    const sure = believe(RESULTS);
    const unsure = believe(RESULTS.map((result) => ({ ...result, confidence: 0.5 })));
    const word = believe(RESULTS.map((result) => ({ ...result, byEar: false })));
    expect(widthOf(unsure)).toBeGreaterThan(widthOf(sure));
    expect(widthOf(word)).toBeGreaterThan(widthOf(sure));
  });

  it('a result of which nothing is sure changes nothing (says: definition)', () => {
    const expected = { tempoBpm: 90 };
    const nothing = believe([{ tempoBpm: 90, clean: 0, runs: 20, confidence: 0 }], { expected });
    expect(medianOf(nothing)).toBeCloseTo(medianOf(believe([], { expected })), 1);
  });
});

describe('what is expected from other exercises', () => {
  it('is what is believed before anything is played, and counts less with every run (says: issue 7, priors first)', () => {
    const expected = { tempoBpm: 70, sd: 0.1 };
    expect(medianOf(believe([], { expected })) / 70).toBeCloseTo(1, 2);
    const alone = medianOf(believe(RESULTS));
    const pulled = (times: number) =>
      Math.abs(
        medianOf(
          believe(
            RESULTS.map(({ clean, runs, ...rest }) => ({ ...rest, clean: clean * times, runs: runs * times })),
            { expected },
          ),
        ) - alone,
      );
    expect(pulled(8)).toBeLessThan(pulled(1));
  });
});

it('odds fall with tempo, and are .85 near the clean tempo (says: definition; a mixture of curves is flatter: .05)', () => {
  const belief = believe(RESULTS);
  expect(believedOdds(belief, 80)).toBeGreaterThan(believedOdds(belief, 100));
  expect(Math.abs(believedOdds(belief, medianOf(belief)) - 0.85)).toBeLessThan(0.05);
});
