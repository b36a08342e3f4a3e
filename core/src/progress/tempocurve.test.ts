/** The clean tempo day by day. */
import { describe, expect, it } from 'vitest';
import { say } from '../words/index.ts';
import { type ExerciseResult, tempoCurve } from './tempocurve.ts';

describe('the clean tempo over days', () => {
  const result = (day: string, tempoBpm: number, clean: number, changes: Partial<ExerciseResult> = {}): ExerciseResult => ({
    exerciseId: 'a',
    day,
    tempoBpm,
    clean,
    runs: 10,
    ...changes,
  });
  const results = [
    result('2025-01-06', 70, 10),
    result('2025-01-06', 80, 8),
    result('2025-01-06', 90, 2),
    result('2025-01-08', 80, 10),
    result('2025-01-08', 90, 8, { byEar: false }),
    result('2025-01-07', 60, 5, { exerciseId: 'b' }),
  ];

  it('has a point a day of its own exercise, ascending, with the runs of that day', () => {
    expect(tempoCurve(results, 'a').map(({ day, runs, clean, heard }) => [day, runs, clean, heard])).toEqual([
      ['2025-01-06', 30, 20, true],
      ['2025-01-08', 20, 18, true],
    ]);
  });

  it('never looks ahead: a later day changes no earlier point', () => {
    expect(tempoCurve(results.slice(0, 3), 'a')[0]).toEqual(tempoCurve(results, 'a')[0]);
  });

  it('from a day on is the end of the whole', () => {
    expect(tempoCurve(results, 'a', { from: '2025-01-07' })).toEqual(tempoCurve(results, 'a').slice(1));
  });

  it('works out a day once: neither asking again nor another evening changes what an earlier day rests on', () => {
    const estimates = (of: readonly ExerciseResult[], latestDays: number) => tempoCurve(of, 'a', { latestDays }).map(({ estimate }) => estimate);
    const first = estimates(results, 2);
    const again = estimates([...results, result('2025-01-09', 90, 9)], 3);
    for (const [k, estimate] of first.entries()) expect(again[k]).toBe(estimate);
  });

  it('says when there is too little', () => {
    const [point] = tempoCurve([result('2025-01-06', 70, 4, { runs: 4 })], 'a');
    expect(!point!.estimate.known && say(point!.estimate.why)).toBe('Too little yet: 4 runs so far, a clean tempo is told from 8 on.');
  });
});
