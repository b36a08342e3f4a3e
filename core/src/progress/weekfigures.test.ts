/** Weeks set beside each other, the cell over the weeks, and what was worked on. */
import { describe, expect, it, test } from 'vitest';
import { addDays } from '../day.ts';
import type { DiaryView } from '../diary/index.ts';
import { type BlockResult, cellRow, cellWeeks, type ExerciseResult, meanRange, weekFigures, weekTempi, workedOn } from './index.ts';
import { firstAndLastTempo } from './weektempi.ts';

test('the mean of 3, 4, 5 and 8 with its 95 % range: 1.5626 to 8.4374 (says: SciPy 1.17.1, stats.t.interval)', () => {
  const { value, low, high } = meanRange([3, 4, 5, 8])!;
  // Quantiles are kept to four decimals.
  expect([value, low, high].map((one) => Number(one.toFixed(3)))).toEqual([5, 1.563, 8.437]);
  expect(meanRange([3, 4])).toBeNull();
});

const place = (index: number, levelDb: number) => ({ index, limb: 'K', count: 20, levelDb });
const pair = { first: 4, second: 5, limb: 'K', gapShare: 0.8, levelStepDb: -4, unsure: false };

describe('the cell', () => {
  it('is its double; without one the last stroke against the first where they are on one drum (says: our choice)', () => {
    const heard = { places: [place(0, -20), place(2, -23)], pairs: [pair] };
    const of = { day: '2026-03-02', heard: heard as never, surfaces: ['snare', 'snare', 'snare', 'snare', 'kick', 'kick'] };
    expect(cellRow(of, { first: 3, last: 5 })).toEqual({ day: '2026-03-02', space: 0.8, stepDb: -4 });
    expect(cellRow(of, { first: 0, last: 2 })).toEqual({ day: '2026-03-02', space: null, stepDb: -3 });
    expect(cellRow({ ...of, surfaces: ['snare', 'snare', 'tom'] }, { first: 0, last: 2 }).stepDb).toBeNull();
  });

  it('is told by weeks from Monday, with a range from three blocks on (calendar of 2026)', () => {
    const row = (day: string, space: number) => ({ day, space, stepDb: null });
    const weeks = cellWeeks([row('2026-03-08', 0.8), row('2026-03-02', 0.9), row('2026-03-04', 0.85), row('2026-03-09', 0.9)]);
    expect(weeks.map(({ from, blocks }) => [from, blocks])).toEqual([
      ['2026-03-02', 3],
      ['2026-03-09', 1],
    ]);
    expect(weeks[0]!.space!.value).toBeCloseTo(0.85, 10);
    expect(weeks[1]!.space).toBeNull();
  });
});

test('a week has its days, minutes and runs; other weeks are not in it; 17 of 20 runs are 64 to 95 % (says: Wilson 1927)', () => {
  const sessions = [
    { day: '2026-03-02', minutes: 10 },
    { day: '2026-03-02', minutes: 2 },
    { day: '2026-03-08', minutes: 5 },
    { day: '2026-03-09', minutes: 9 },
  ];
  const results = [
    { exerciseId: 'a', day: '2026-03-02', tempoBpm: 80, clean: 17, runs: 20 },
    { exerciseId: 'a', day: '2026-03-09', tempoBpm: 80, clean: 1, runs: 20 },
  ];
  const week = weekFigures('2026-03-02', { sessions, results, phraseId: null, cell: [] });
  expect(week).toMatchObject({ days: 2, sessions: 3, minutes: 17, clean: 17, runs: 20, tempo: null, space: null });
  expect([week.share!.low, week.share!.high].map((one) => Number(one.toFixed(2)))).toEqual([0.64, 0.95]);
  expect(weekFigures('2026-03-16', { sessions, results, phraseId: 'a', cell: [] })).toMatchObject({ days: 0, runs: 0, share: null });
});

test('which exercises failed most: those with more than half of the runs that were not clean (says: planted; issue 9)', () => {
  const result = (exerciseId: string, clean: number, runs: number) => ({ exerciseId, day: '2026-03-03', tempoBpm: 80, clean, runs });
  const failing = (results: readonly ExerciseResult[]) => weekFigures('2026-03-02', { sessions: [], results, phraseId: null, cell: [] }).failing;
  expect(failing([result('a', 44, 48), result('fill', 0, 20), result('b', 10, 14), result('fill', 2, 20)])).toEqual([
    { exerciseId: 'fill', clean: 2, runs: 40 },
  ]);
  expect(failing([result('a', 9, 12), result('b', 8, 12), result('c', 12, 12)]).map(({ exerciseId }) => exerciseId)).toEqual(['b']);
  expect(failing([result('c', 12, 12)])).toEqual([]);
});

test('what was worked on: phrases with sessions, the latest first, with days, minutes and state (says: planted)', () => {
  const session = (stickingPointId: string | null, playedSec: number) => ({
    session: { body: { stickingPointId } },
    playedSec,
    blocks: [],
    takes: [],
  });
  const point = (id: string, state?: object) => ({ id, body: { name: id, sticking: 'RL', perBeat: 4, tempoBpm: 100, ...(state ? { state } : {}) } });
  const closed = { is: 'closed', day: '2026-02-01' };
  const diary = {
    days: [
      { day: '2026-03-02', sessions: [session('b', 600), session(null, 300)] },
      { day: '2026-02-01', sessions: [session('a', 300)] },
      { day: '2026-01-05', sessions: [session('a', 600), session('c', 0)] },
    ],
    stickingPoints: [point('a', closed), point('b'), point('c')],
  } as unknown as DiaryView;
  const told = workedOn(diary, [] as readonly BlockResult[]);
  expect(told.map(({ name, from, to, days, minutes, state }) => [name, from, to, days, minutes, state])).toEqual([
    ['b', '2026-03-02', '2026-03-02', 1, 10, null],
    ['a', '2026-01-05', '2026-02-01', 2, 15, closed],
  ]);
});

test('the first and the last week that tell a tempo are the ends of all that do (says: planted)', () => {
  const week = (k: number, tells: boolean): readonly ExerciseResult[] =>
    [90, 100, 110].map((tempoBpm, n) => {
      const result = { exerciseId: 'a', day: addDays('2026-01-05', 7 * k), tempoBpm: tempoBpm + k, runs: 20 };
      return { ...result, clean: tells ? [20, 14, 0][n]! : 20 };
    });
  const ends = (telling: readonly boolean[]) => {
    const results = telling.flatMap((tells, k) => week(k, tells)).reverse();
    const all = weekTempi(results, 'a');
    expect(firstAndLastTempo(results, 'a')).toEqual([all[0] ?? null, all.at(-1) ?? null]);
    return all.map(({ from }) => from);
  };
  expect(ends([false, true, true, false, true, false])).toEqual(['2026-01-12', '2026-01-19', '2026-02-02']);
  expect(ends([false, true, false])).toEqual(['2026-01-12']);
  expect(ends([false, false])).toEqual([]);
  expect(ends([])).toEqual([]);
});
