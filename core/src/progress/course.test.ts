/** The course of a clean tempo: likelihoods as SciPy has them, and that only what the results carry is named. */
import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { addDays } from '../day.ts';
import { bic, courseAt, type FormedDays, fitCourses } from './coursemodels.ts';
import { columnsFor, dayLogs } from './daylogs.ts';
import { type CourseStatement, type ExerciseResult, restsOn, tempoCourse } from './index.ts';
import { COURSE_GRID } from './parameters.ts';
import { besideJump, setupChanges } from './setups.ts';

const EXERCISE = { id: 'x', perBeat: 4 };
const FIRST = '2026-03-02';

/** The days of bench/progress/course.py: tempo, clean, runs. */
const DAYS: readonly (readonly (readonly [number, number, number])[])[] = [
  [[72, 18, 20]],
  [
    [75, 15, 20],
    [68, 12, 12],
  ],
  [[72, 19, 22]],
  [[75, 14, 18]],
  [[74, 16, 20]],
  [[76, 15, 21]],
  [[80, 19, 20]],
  [
    [84, 18, 21],
    [68, 12, 12],
  ],
  [[86, 17, 20]],
  [[88, 14, 20]],
  [[86, 18, 21]],
  [[87, 16, 20]],
];

const asResults = (days: typeof DAYS, everyDays = 2): readonly ExerciseResult[] =>
  days.flatMap((results, k) =>
    results.map(([tempoBpm, clean, runs]) => ({ exerciseId: 'x', day: addDays(FIRST, everyDays * k), tempoBpm, clean, runs })),
  );

describe('how likely days are (says: SciPy 1.17.1, integrate.quad and optimize.minimize; figures made by bench/progress/course.py)', () => {
  const results = asResults(DAYS);
  const form = { slope: 0.055, nightSd: 0.025 };
  const columns = columnsFor(results);
  const days = [...new Set(results.map(({ day }) => day))];
  const formed: FormedDays = { form, first: columns.first, logs: dayLogs(results, days, { form, columns }) };

  // The form of the day is summed on a grid of a hundredth; between its columns the log is taken to be straight.
  test.each([
    { day: 0, bpm: 70, log: -7.383562 },
    { day: 0, bpm: 80, log: -7.086981 },
    { day: 1, bpm: 75, log: -12.531065 },
    { day: 9, bpm: 84, log: -12.510967 },
  ])('day $day at $bpm: $log', ({ day, bpm, log }) => {
    const at = (Math.log(bpm) - columns.first) / COURSE_GRID.step;
    const row = formed.logs[day]!;
    const [low, part] = [Math.floor(at), at - Math.floor(at)];
    expect(Math.abs((1 - part) * row[low]! + part * row[low + 1]! - log)).toBeLessThan(0.02);
  });

  const { flat, smooth, step } = fitCourses(formed);
  // Levels are a hundredth apart and rises three: at half of each the log likelihood of these days lies by up to a fifth under its top.
  const NEAR = 0.2;

  it('the same all along: −131.3477 at 80.60', () => {
    expect(Math.abs(flat.logLikelihood + 131.34766)).toBeLessThan(NEAR);
    expect(Math.abs(Math.exp(flat.course.level) - 80.6)).toBeLessThan(0.8);
  });

  it('with one step, best at day 6: −114.2688, from 72.99 by .1567', () => {
    expect(step!.course).toMatchObject({ at: 6, rise: 0 });
    expect(Math.abs(step!.logLikelihood + 114.268816)).toBeLessThan(NEAR);
    expect(Math.abs(Math.exp(step!.course.level) - 72.988)).toBeLessThan(0.8);
    expect(Math.abs(step!.course.step - 0.156714)).toBeLessThan(0.015);
  });

  it('a straight rise: −119.1662; a bent one may do better, never worse', () => {
    expect(smooth.logLikelihood).toBeGreaterThan(-119.166235 - NEAR);
  });

  it('Schwarz’s measure: 2 · 114.2688 + 3 · ln 12 = 235.9924 (arithmetic)', () => {
    expect(bic({ logLikelihood: -114.268816, parameters: 3 }, 12)).toBeCloseTo(228.537632 + 3 * Math.log(12), 6);
  });
});

/** What comes out on the average of a player whose tempo is so and so on each day: work at that tempo, 85 of 100 clean. */
const planted = (bpmOn: (week: number) => number, weeks: number): readonly ExerciseResult[] =>
  Array.from({ length: weeks * 5 }, (_, k) => {
    const days = Math.floor(k / 5) * 7 + (k % 5);
    const tempoBpm = Math.round(bpmOn(days / 7));
    return { exerciseId: 'x', day: addDays(FIRST, days), tempoBpm, clean: k % 2 === 0 ? 17 : 16, runs: 19 + (k % 3 === 0 ? 1 : 0) };
  });

const codes = (said: readonly CourseStatement[]) => said.map(({ code }) => code);

describe('only what the results carry is named', () => {
  it('the same for eight weeks of five days is held, with its tempo; in three weeks of such days it cannot be told (says: planted)', () => {
    const { said } = tempoCourse(
      planted(() => 92, 8),
      EXERCISE,
    );
    expect(codes(said)).toEqual(['course-held']);
    expect(
      tempoCourse(
        planted(() => 92, 3),
        EXERCISE,
      ).said,
    ).toEqual([]);
    expect(said[0]).toMatchObject({ params: { weeks: 7, perBeat: 4, from: FIRST } });
    const { bpm, lowBpm, highBpm } = said[0]!.params as { bpm: number; lowBpm: number; highBpm: number };
    expect(Math.abs(bpm - 92)).toBeLessThan(2);
    expect(lowBpm).toBeLessThanOrEqual(bpm);
    expect(highBpm).toBeGreaterThanOrEqual(bpm);
  });

  it('a jump from 80 to 92 is named with its day and size, each within its range (says: planted)', () => {
    const { said } = tempoCourse(
      planted((week) => (week < 4 ? 80 : 92), 9),
      EXERCISE,
    );
    expect(codes(said)).toEqual(['course-jump']);
    const jump = said[0]!.params as { day: string; fromDay: string; toDay: string; lowBpm: number; highBpm: number };
    expect(jump.day).toBe(addDays(FIRST, 28));
    expect(jump.fromDay <= jump.day && jump.day <= jump.toDay).toBe(true);
    expect(jump.lowBpm).toBeLessThan(12);
    expect(jump.highBpm).toBeGreaterThan(12);
  });

  it('a steady rise is a rise and no jump, and is not called held; a fall is told as plainly (says: planted)', () => {
    expect(
      codes(
        tempoCourse(
          planted((week) => 72 * 1.035 ** week, 8),
          EXERCISE,
        ).said,
      ),
    ).toEqual(['course-rose']);
    expect(
      codes(
        tempoCourse(
          planted((week) => 100 * 0.97 ** week, 8),
          EXERCISE,
        ).said,
      ),
    ).toEqual(['course-fell']);
  });

  it('too few days, all clean, or none of this exercise: nothing is said (says: our choice)', () => {
    expect(
      tempoCourse(
        planted(() => 92, 1),
        EXERCISE,
      ).said,
    ).toEqual([]);
    expect(
      tempoCourse(
        planted(() => 92, 5).map((one) => ({ ...one, clean: one.runs })),
        EXERCISE,
      ).said,
    ).toEqual([]);
    expect(
      tempoCourse(
        planted(() => 92, 5),
        { id: 'y', perBeat: 4 },
      ),
    ).toEqual({ said: [], days: [], stepEvidence: null, riseEvidence: null, stoodEvidence: null });
  });

  it('law: the order of results changes nothing, and all tempi faster by a share move what is told by it', () => {
    const results = planted((week) => (week < 4 ? 80 : 100), 8);
    const told = tempoCourse(results, EXERCISE);
    fc.assert(
      fc.property(fc.shuffledSubarray([...results], { minLength: results.length }), fc.integer({ min: 60, max: 150 }), (mixed, percent) => {
        expect(tempoCourse(mixed, EXERCISE)).toEqual(told);
        const other = tempoCourse(
          results.map((one) => ({ ...one, tempoBpm: (one.tempoBpm * percent) / 100 })),
          EXERCISE,
        );
        expect(codes(other.said)).toEqual(codes(told.said));
        const [was, is] = [told, other].map(({ said }) => (said[0]!.params as { afterBpm: number }).afterBpm) as [number, number];
        expect(is / was).toBeCloseTo(percent / 100, 6);
      }),
      { seed: 9, numRuns: 2 },
    );
  });

  it('every statement says what it rests on', () => {
    for (const said of tempoCourse(
      planted((week) => (week < 4 ? 80 : 92), 9),
      EXERCISE,
    ).said) {
      expect(restsOn(said)).toEqual({ code: `${said.code}-rests`, params: said.params });
    }
  });
});

test('a course with a bend ends where it rises to, and steps from its day on (arithmetic)', () => {
  const course = { level: 4, rise: 0.4, bend: 5, step: 0.1, at: 6 };
  expect(courseAt(course, 0, 11)).toBe(4);
  expect(courseAt(course, 10, 11)).toBeCloseTo(4.5, 10);
  expect(courseAt({ ...course, bend: 0 }, 5, 11)).toBeCloseTo(4.2, 10);
  expect(courseAt({ ...course, bend: 0 }, 6, 11)).toBeCloseTo(4.34, 10);
});

describe('what stands beside a jump', () => {
  const body = { sticks: '5A', drums: 'pad', pedal: '', heel: 'up', phonePlace: '' };
  const setups = [
    { day: '2026-03-01', body },
    { day: '2026-03-20', body: { ...body, sticks: '7A', pedal: 'longboard' } },
    { day: '2026-05-01', body: { ...body, sticks: '7A', pedal: '' } },
  ];
  const params = {
    day: '2026-03-24',
    fromDay: '2026-03-23',
    toDay: '2026-03-27',
    days: 20,
    perBeat: 4,
    beforeBpm: 80,
    afterBpm: 90,
    lowBpm: 5,
    highBpm: 14,
  };

  it('a change is where something was said to be other than before; what is said first is none (says: our choice)', () => {
    expect(setupChanges(setups)).toEqual([{ day: '2026-03-20', names: ['sticks'], values: ['7A'] }]);
  });

  it('changes of a week before it and up to its last day, and days away right before it (arithmetic)', () => {
    const jump = { code: 'course-jump', params } as const;
    const changes = setupChanges(setups);
    expect(besideJump(jump, { changes, practisedDays: ['2026-03-24', '2026-03-14', '2026-03-12'] })).toEqual([
      { code: 'course-beside-setup', params: changes[0] },
      { code: 'course-beside-away', params: { days: 9 } },
    ]);
    expect(besideJump(jump, { changes: [{ ...changes[0]!, day: '2026-03-15' }], practisedDays: ['2026-03-23'] })).toEqual([]);
  });
});
