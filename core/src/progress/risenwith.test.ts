/** What rose with what: the exact test as SciPy has it, and tables of planted weeks. */
import { describe, expect, it, test } from 'vitest';
import { addDays } from '../day.ts';
import { type ExerciseResult, risenWith, weekTempi } from './index.ts';
import { fisherGreater } from './risenwith.ts';

test.each([
  {
    table: [
      [8, 1],
      [2, 9],
    ],
    odds: 0.002738747320790664,
  },
  {
    table: [
      [5, 1],
      [2, 4],
    ],
    odds: 0.12121212121212119,
  },
  {
    table: [
      [3, 1],
      [1, 1],
    ],
    odds: 0.6,
  },
  {
    table: [
      [9, 0],
      [0, 6],
    ],
    odds: 0.0001998001998001998,
  },
] as const)('$table by chance alone: $odds (says: SciPy 1.17.1, stats.fisher_exact, greater)', ({ table: [first, second], odds }) => {
  expect(fisherGreater(first, second)).toBeCloseTo(odds, 12);
});

const MONDAY = '2026-01-05';

/** Four days a week, eighty runs at each week's tempo, 85 of 100 clean. */
const weeksOf = (exerciseId: string, tempi: readonly (number | null)[]): readonly ExerciseResult[] =>
  tempi.flatMap((tempoBpm, week) =>
    tempoBpm === null ? [] : [0, 1, 2, 3].map((day) => ({ exerciseId, day: addDays(MONDAY, 7 * week + day), tempoBpm, clean: 17, runs: 20 })),
  );

/** Up in odd weeks, down a little in even ones. */
const inOdd = Array.from({ length: 16 }, (_, week) => 80 * 1.06 ** Math.ceil(week / 2) * 0.97 ** Math.floor(week / 2));
const inEven = inOdd.map((_, week) => 80 * 0.97 ** Math.ceil(week / 2) * 1.06 ** Math.floor(week / 2));
const rows = ['a', 'b'].map((id) => ({ key: id, exerciseIds: [id] }));

describe('weeks by their own results', () => {
  it('are as fast as they were played at 85 of 100, and leave out weeks that tell nothing (says: definition of the clean tempo)', () => {
    const results = [...weeksOf('a', [80, null, 90]), { exerciseId: 'a', day: addDays(MONDAY, 22), tempoBpm: 96, clean: 20, runs: 20 }];
    const told = weekTempi(results, 'a');
    expect(told.map(({ from }) => from)).toEqual([MONDAY, addDays(MONDAY, 14)]);
    // Columns are a hundredth apart, and the form of each day is summed out.
    for (const [k, bpm] of [80, 90].entries()) expect(Math.abs(told[k]!.bpm / bpm - 1)).toBeLessThan(0.012);
    for (const { bpm, lowBpm, highBpm } of told) expect(lowBpm < bpm && bpm < highBpm).toBe(true);
  });
});

describe('what rose with what', () => {
  it('in the same weeks is together, in the others is not; both by how much (says: planted, 6 % up, 3 % down)', () => {
    const results = [...weeksOf('phrase', inOdd), ...weeksOf('a', inOdd), ...weeksOf('b', inEven)];
    const [a, b] = risenWith(results, 'phrase', rows);
    expect(a).toMatchObject({ steps: 15, roseSteps: 8, togetherSteps: 8, word: 'together' });
    expect(b).toMatchObject({ steps: 15, roseSteps: 8, togetherSteps: 0, word: 'notSure' });
    // Tempi are told in steps of a hundredth.
    expect(Math.abs(a!.whileRising! - 0.06)).toBeLessThan(0.01);
    expect(Math.abs(a!.otherwise! + 0.03)).toBeLessThan(0.01);
    expect(Math.abs(b!.whileRising! + 0.03)).toBeLessThan(0.01);
  });

  it('both rising every week is no agreement: the margins say it all (says: Fisher 1935)', () => {
    const rising = inOdd.map((_, week) => 80 * 1.03 ** week);
    const [a] = risenWith([...weeksOf('phrase', rising), ...weeksOf('a', rising)], 'phrase', [rows[0]!]);
    expect(a).toMatchObject({ steps: 15, roseSteps: 15, togetherSteps: 15, otherwise: null, word: 'notSure' });
  });

  it('few weeks, or weeks a month apart, are too few to say; a family is the mean of its exercises (says: our choice)', () => {
    const results = [...weeksOf('phrase', inOdd.slice(0, 5)), ...weeksOf('a', inOdd.slice(0, 5)), ...weeksOf('b', inEven.slice(0, 5))];
    const [a, both] = risenWith(results, 'phrase', [rows[0]!, { key: 'family', exerciseIds: ['a', 'b', 'phrase'] }]);
    expect(a).toMatchObject({ steps: 4, word: 'few' });
    expect(both).toMatchObject({ key: 'family', steps: 4 });
    expect(Math.abs(both!.whileRising! - 0.015)).toBeLessThan(0.01);
    const apart = (tempi: readonly number[]) => tempi.flatMap((bpm) => [bpm, null, null, null]);
    const [far] = risenWith([...weeksOf('phrase', apart(inOdd)), ...weeksOf('a', apart(inOdd))], 'phrase', [rows[0]!]);
    expect(far).toMatchObject({ steps: 0, whileRising: null, word: 'few' });
  });
});
