/** Courses that stand for a while and then move: likelihoods as SciPy has them, and that standing is named only where the results carry it. */
import { describe, expect, it, test } from 'vitest';
import { addDays } from '../day.ts';
import { columnsFor, dayLogs } from './daylogs.ts';
import { type BlockResult, type ExerciseResult, laneMoves, restsOn, tempoCourse } from './index.ts';
import { fitStood } from './stoodmodels.ts';

const FIRST = '2026-03-02';

/** Slopes are steps apart and levels a hundredth: at half of each the log likelihood lies by up to two fifths under its top, for each line. */
const NEAR = 0.4;

describe('lines that join (says: SciPy 1.17.1, optimize.minimize; figures made by bench/progress/course.py)', () => {
  it('a line, level from day 5 to day 12, and a line again: −154.4436, level 76.31, .0181 and .0172 a day', () => {
    const days = Array.from({ length: 18 }, (_, k) => addDays(FIRST, 2 * k));
    const results = days.map((day, k): ExerciseResult => {
      const tempoBpm = 70 + 1.2 * Math.min(k, 5) + 1.2 * Math.max(0, k - 12);
      return { exerciseId: 'x', day, tempoBpm, clean: 16 + (k % 3), runs: 20 };
    });
    const form = { slope: 0.055, nightSd: 0.025 };
    const columns = columnsFor(results);
    const fitted = fitStood({ form, first: columns.first, logs: dayLogs(results, days, { form, columns }) })!;
    // Where it is sought freely it may join on other days, and with a line less where that costs less than it brings: never worse by Schwarz's measure.
    const measure = (log: number, parameters: number) => -2 * log + parameters * Math.log(18);
    expect(measure(fitted.logLikelihood, fitted.parameters)).toBeLessThan(measure(-154.443563 - 2 * NEAR, 5));
  });
});

/** What comes out on the average of a player whose tempo is so and so on each day: work at that tempo, 85 of 100 clean, some forty runs a day; five days a week. */
const planted = (bpmOn: (week: number) => number, weeks: number): readonly ExerciseResult[] =>
  Array.from({ length: weeks * 5 }, (_, k) => {
    const days = Math.floor(k / 5) * 7 + (k % 5);
    const tempoBpm = Math.round(bpmOn(days / 7));
    return { exerciseId: 'x', day: addDays(FIRST, days), tempoBpm, clean: k % 2 === 0 ? 34 : 33, runs: 39 + (k % 3 === 0 ? 1 : 0) };
  });
const told = (bpmOn: (week: number) => number, weeks: number) => tempoCourse(planted(bpmOn, weeks), { id: 'x', perBeat: 4 });

describe('standing that is over is named, and only that (says: planted)', () => {
  it('eight weeks at 80, then 5 % a week: it stood at 80 for about those weeks and rose since; no jump', () => {
    const { said } = told((week) => 80 * 1.05 ** Math.max(0, week - 8), 12);
    expect(said.map(({ code }) => code)).toEqual(['course-stood']);
    const { from, to, weeks, bpm, afterBpm, earlier } = said[0]!.params as {
      from: string;
      to: string;
      weeks: number;
      bpm: number;
      afterBpm: number;
      earlier: string;
    };
    expect([from, earlier]).toEqual([FIRST, '']);
    expect(Math.abs(bpm - 80)).toBeLessThan(2);
    expect(afterBpm).toBeGreaterThan(90);
    expect(Math.abs(weeks - 8)).toBeLessThanOrEqual(1);
    expect(to > addDays(FIRST, 42) && to < addDays(FIRST, 70)).toBe(true);
    expect(restsOn(said[0]!)).toEqual({ code: 'course-stood-rests', params: said[0]!.params });
  });

  it('in the picture of the whole diary a jump from 80 to 100 after four weeks, and the eight weeks that follow, stand on their days (says: planted)', () => {
    const results = planted((week) => (week < 4 ? 80 : 100), 12) as readonly BlockResult[];
    const moves = laneMoves(results, { exerciseId: 'x', perBeat: 4 });
    expect(moves.map(({ is }) => is)).toEqual(['jump', 'stood']);
    const [jump, stood] = moves;
    expect(jump!.from).toBe(addDays(FIRST, 28));
    expect(stood!.from >= jump!.from && stood!.to === results.at(-1)!.day).toBe(true);
    expect(laneMoves(results, { exerciseId: null, perBeat: 4 })).toEqual([]);
  });

  it('a rise, seven weeks on one level, and a rise again: it rose, stood and rose', () => {
    const { said } = told((week) => 80 * 1.1 ** (Math.min(3, week) + Math.max(0, week - 10)), 12);
    expect(said[0]).toMatchObject({ code: 'course-stood', params: { earlier: 'rose' } });
  });

  test.each([
    ['a steady rise of 2 % a week', (week: number) => 72 * 1.02 ** week],
    ['1 % a week, then 3 %', (week: number) => 72 * 1.01 ** Math.min(6, week) * 1.03 ** Math.max(0, week - 6)],
    ['a rise that flattens', (week: number) => 90 - 20 * Math.exp(-week / 3)],
    ['the same all along', () => 92],
  ])('%s: nothing is said to have stood and moved', (_, bpmOn) => {
    expect(told(bpmOn, 12).said.filter(({ code }) => code === 'course-stood')).toEqual([]);
  });
});
