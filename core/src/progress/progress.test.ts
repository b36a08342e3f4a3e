/** Days, curves, then and now, ready to close: against closed forms, calendars, and what must not be claimed. */
import { describe, expect, it } from 'vitest';
import { measure } from '../measurement/index.ts';
import { cycleOf, play } from '../measurement/play.case.ts';
import { normal, seededRandom } from '../random.ts';
import { say } from '../words/index.ts';
import { firstAndLast } from './firstandlast.ts';
import { type MadePlace, madeMeasurement } from './made.case.ts';
import { daysAway, practised, practisedByWeek, welcomeBack } from './practised.ts';
import { cameBack, readyToClose } from './ready.ts';
import { type ExerciseResult, tempoCurve } from './tempocurve.ts';
import { type ReferenceTake, thenAndNow } from './thenandnow.ts';

const session = (day: string, minutes = 12) => ({ day, minutes });

describe('days and minutes (arithmetic and the Gregorian calendar)', () => {
  const sessions = [session('2025-03-28'), session('2025-03-31', 8), session('2025-03-31', 4), session('2025-04-01')];

  it('are plain sums, a day counted once', () => {
    expect(practised(sessions, { from: '2025-03-31', to: '2025-04-06' })).toEqual({ sessions: 3, days: 2, minutes: 24 });
  });

  it('by week, weeks without practice among them, across a clock change and a month', () => {
    expect(practisedByWeek(sessions, { today: '2025-04-15' })).toEqual([
      { from: '2025-03-24', sessions: 1, days: 1, minutes: 12 },
      { from: '2025-03-31', sessions: 3, days: 2, minutes: 24 },
      { from: '2025-04-07', sessions: 0, days: 0, minutes: 0 },
      { from: '2025-04-14', sessions: 0, days: 0, minutes: 0 },
    ]);
    expect(practisedByWeek(sessions, { today: '2025-04-01', weekStart: 7 }).map(({ from }) => from)).toEqual(['2025-03-23', '2025-03-30']);
    expect(practisedByWeek([], { today: '2025-04-01' })).toEqual([]);
  });

  it.each([
    { today: '2025-04-01', days: 0 },
    { today: '2025-04-04', days: 3 },
    { today: '2025-04-05', days: 4 },
    { today: '2025-03-30', days: 2 },
  ])('days away on $today: $days', ({ today, days }) => {
    expect(daysAway(sessions, today)).toBe(days);
  });

  it('a kind word only past the days allowed, and none before the first session', () => {
    expect(welcomeBack(sessions, '2025-04-04')).toBeNull();
    expect(say(welcomeBack(sessions, '2025-04-05')!)).toBe('Good to see you again after 4 days.');
    expect(welcomeBack([], '2025-04-05')).toBeNull();
    expect(welcomeBack(sessions, '2025-04-05', 7)).toBeNull();
  });
});

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

describe('then and now', () => {
  const even: readonly MadePlace[] = [{ limb: 'R' }, { limb: 'L' }, { limb: 'K' }, { limb: 'K' }];
  const drums = ['snare', 'snare', 'kick', 'kick'];
  const take = (
    day: string,
    places: readonly MadePlace[],
    options: Parameters<typeof madeMeasurement>[1] & { readonly setup?: Record<string, string> } = {},
  ): ReferenceTake => ({
    day,
    measurement: madeMeasurement(places, options),
    drums,
    setup: options.setup ?? {},
  });
  const withKick = (kick: Partial<MadePlace>): readonly MadePlace[] => [even[0]!, even[1]!, even[2]!, { limb: 'K', ...kick }];
  const codesOf = (then: ReferenceTake, now: ReferenceTake) => thenAndNow(then, now).said.map(({ code }) => code);

  it('a second kick 30 ms early then, 4 ms now: nearer in time, and of that stroke only', () => {
    const { said, places } = thenAndNow(take('2025-01-06', withKick({ biasMs: -30 })), take('2025-02-10', withKick({ biasMs: -4 }), { seed: 2 }));
    expect(said.map((statement) => say(statement))).toEqual(['Stroke 4 (kick) is nearer in time: 30 ms early then, 4 ms early now.']);
    expect(places[3]!.biasMs.change!.value).toBeCloseTo(26, 9);
  });

  it('the interval of a difference is the root of the squares (closed form for equal halves: √2 · half)', () => {
    const { biasMs } = thenAndNow(take('a', even), take('b', even, { seed: 2 })).places[0]!;
    const half = biasMs.before!.high - biasMs.before!.value;
    expect(biasMs.change!.high - biasMs.change!.value).toBeCloseTo(Math.SQRT2 * half, 9);
  });

  it('a spread of 16 ms then and 4 now is steadier; the interval of a spread is e^±(1.96·1.1625/√20) (closed form)', () => {
    const { said, places } = thenAndNow(take('a', withKick({ spreadMs: 16 })), take('b', withKick({ spreadMs: 4 }), { seed: 2 }));
    expect(said.map(({ code }) => code)).toEqual(['progress-steadier']);
    expect(places[3]!.spreadMs.before!.high).toBeCloseTo(16 * Math.exp((1.959964 * 1.1625) / Math.sqrt(20)), 6);
  });

  it('a second kick that has come up by 6 dB is louder against the first', () => {
    const codes = codesOf(take('a', withKick({ levelDb: -26 })), take('b', withKick({ levelDb: -20 }), { seed: 2 }));
    expect(codes).toContain('progress-louder');
  });

  it('places that rest on unsure strokes are not judged by', () => {
    const unsure = (made: ReferenceTake): ReferenceTake => ({
      ...made,
      measurement: { ...made.measurement, places: made.measurement.places.map((place) => ({ ...place, unsure: true })) },
    });
    expect(codesOf(unsure(take('a', withKick({ biasMs: -30 }))), unsure(take('b', even)))).toEqual(['progress-nothing-sure']);
  });

  it('recording louder altogether changes no volume (law: compared within one take)', () => {
    const louder = even.map((place) => ({ ...place, levelDb: -5 }));
    expect(codesOf(take('a', even), take('b', louder))).toEqual(['progress-nothing-sure']);
  });

  it('volume is not told where a drum has one place only', () => {
    const measurement = madeMeasurement(even);
    const alone = { day: 'a', measurement, drums: ['snare', 'snare', 'kick', 'cymbal'], setup: {} };
    expect(thenAndNow(alone, alone).places[3]!.volumeDb).toEqual({ before: null, after: null, change: null, sure: false });
  });

  it('two takes of one player on one day are told to differ in 5 of 100 pairs at most (says: definition; 4 standard errors of 200 pairs are 6)', () => {
    const measured = (seed: number) => take('a', even, { seed, measured: true });
    const pairs = Array.from({ length: 200 }, (_, k) => codesOf(measured(2 * k + 1), measured(2 * k + 2)));
    const differing = pairs.filter((codes) => codes[0] !== 'progress-nothing-sure').length;
    expect(differing / pairs.length).toBeLessThan(0.11);
  });

  it('and a change of 30 ms is found in nearly all pairs', () => {
    const found = Array.from({ length: 50 }, (_, k) =>
      codesOf(take('a', withKick({ biasMs: -30 }), { seed: 2 * k + 1, measured: true }), take('b', even, { seed: 2 * k + 2, measured: true })),
    ).filter((codes) => codes.includes('progress-nearer-in-time'));
    expect(found.length).toBeGreaterThan(45);
  });

  it('a different set-up or tempo is said first', () => {
    const codes = codesOf(take('a', even, { setup: { sticks: '5A' } }), take('b', even, { setup: { sticks: '2B', pedal: 'felt' }, tempoBpm: 100 }));
    expect(codes).toEqual(['progress-setup-differs', 'progress-tempo-differs', 'progress-nothing-sure']);
    expect(say(thenAndNow(take('a', even, { setup: { sticks: '5A' } }), take('b', even)).said[0]!)).toContain('sticks');
  });

  it('too few cycles: nothing is claimed, and what to do is said', () => {
    const few = (seed: number) => {
      const made = take('a', even, { cycles: 4, seed });
      return {
        ...made,
        measurement: { ...made.measurement, places: made.measurement.places.map((place) => ({ ...place, biasLowMs: null, biasHighMs: null })) },
      };
    };
    expect(thenAndNow(few(1), few(2)).said.map((statement) => say(statement))).toEqual([
      'There are too few strokes in these takes to compare them. Record at least six cycles.',
    ]);
  });
});

describe('what did not change, and what cannot be said', () => {
  const drums = ['snare', 'snare'];
  const madeTake = (places: readonly MadePlace[], options: { cycles?: number; seed?: number } = {}): ReferenceTake => ({
    ...{ day: 'a', drums, setup: {} },
    measurement: madeMeasurement(places, options),
  });

  it('narrow ranges about nothing are as before, wide ones cannot be said; a change is neither (closed form: ±1.96·1.2533·σ/√n·√2 against 6 ms)', () => {
    // σ 4, n 40: ±2.2 ms; σ 16, n 12: ±16 ms.
    const steady = (biasMs: number): readonly MadePlace[] => [
      { limb: 'R', spreadMs: 4 },
      { limb: 'L', spreadMs: 4, biasMs },
    ];
    const wide: readonly MadePlace[] = [
      { limb: 'R', spreadMs: 16 },
      { limb: 'L', spreadMs: 16 },
    ];
    const restOf = (then: readonly MadePlace[], now: readonly MadePlace[], cycles: number) =>
      thenAndNow(madeTake(then, { cycles }), madeTake(now, { cycles, seed: 2 })).rest.map((said) => say(said));
    expect(restOf(steady(0), steady(0), 40)).toEqual(['Strokes 1 and 2 come as they came, as far as an ear can tell.']);
    expect(restOf(steady(-30), steady(0), 40)).toEqual(['Stroke 1 comes as it came, as far as an ear can tell.']);
    expect(restOf(wide, wide, 12)).toEqual(['Of strokes 1 and 2 it cannot be said yet: the ranges are too wide. More cycles would tell.']);
  });

  it('pad against kit is told in these words', () => {
    const [said] = thenAndNow(
      madeTake([{ limb: 'R' }, { limb: 'L', biasMs: -4 }]),
      madeTake([{ limb: 'R' }, { limb: 'L', biasMs: -30 }], { seed: 2 }),
      'drums',
    ).said;
    expect(say(said!)).toBe('Stroke 2 (left hand) is further off in time: 4 ms early on the pad, 30 ms early on the kit.');
  });
});

describe('the first seconds against the last (closed form: what was planted)', () => {
  const random = seededRandom(3);
  const cycle = cycleOf('RLRLKK', 4);
  const measured = (late: (n: number, index: number) => number, cycles = 36) => {
    const candidates = play(cycle, { cycles, tempoBpm: 100, stroke: (n, index) => ({ offMs: late(n, index) + 3 * normal(random) }) });
    return measure(candidates, cycle, { tempoBpm: 100, durationSec: candidates.at(-1)!.timeSec + 2 }).value!;
  };

  it('a second kick that falls behind in the last third is told, and the rest is as before', () => {
    const told = firstAndLast(
      measured((n, index) => (index === 5 && n >= 24 ? 22 : 0)),
      cycle,
    )!;
    expect(told.said.map((said) => say(said))).toEqual([
      expect.stringMatching(/^Stroke 6 \(kick\) is further off in time: .* in the first seconds, \d+ ms late in the last\.$/),
    ]);
  });

  it('a third of fewer than six cycles is too little', () => {
    expect(
      firstAndLast(
        measured(() => 0, 17),
        cycle,
      ),
    ).toBeNull();
  });
});

describe('ready to close', () => {
  const phrase = { exerciseId: 'phrase', goalBpm: 96 };
  const chosen = [
    { exerciseId: 'pad', family: 'pad', goalBpm: 96 },
    { exerciseId: 'use', family: 'use', goalBpm: 96 },
  ] as const;
  const day = (exerciseId: string, date: string, changes: Partial<ExerciseResult> = {}): ExerciseResult => ({
    exerciseId,
    day: date,
    tempoBpm: 96,
    clean: 9,
    runs: 10,
    ...changes,
  });
  const bothDays = (id: string) => [day(id, '2025-02-03'), day(id, '2025-02-05')];
  const held = [...bothDays('pad'), ...bothDays('use')];
  const codes = (results: readonly ExerciseResult[]) => {
    const { ready, there, missing } = readyToClose({ phrase, chosen, results });
    return { ready, there: there.map(({ code }) => code), missing: missing.map(({ code }) => code) };
  };

  it('not before anything was played', () => {
    expect(codes([])).toEqual({ ready: false, there: [], missing: ['progress-family-not-yet', 'progress-family-not-yet', 'progress-check-later'] });
  });

  it('each family on two days, use among them; then a check from three weeks after the later of them (arithmetic: 2025-02-05 + 21 days)', () => {
    const { ready, missing } = readyToClose({ phrase, chosen, results: held });
    expect(ready).toBe(false);
    expect(missing).toEqual([{ code: 'progress-check-due', params: { from: '2025-02-26' } }]);
  });

  it('the check weeks later closes it; a day early does not', () => {
    expect(codes([...held, day('phrase', '2025-02-25')]).ready).toBe(false);
    expect(codes([...held, day('phrase', '2025-02-26')])).toEqual({
      ready: true,
      there: ['progress-family-holds', 'progress-family-holds', 'progress-check-held'],
      missing: [],
    });
  });

  it.each([
    { name: 'too slow', change: { tempoBpm: 92 } },
    { name: 'too few runs', change: { clean: 7, runs: 7 } },
    { name: 'not clean enough (8 of 10)', change: { clean: 8 } },
  ])('a second day that was $name does not count', ({ change }) => {
    const results = [...bothDays('use'), day('pad', '2025-02-03'), day('pad', '2025-02-05', change)];
    expect(codes(results).missing).toContain('progress-family-once');
  });

  it('without the phrase in music it cannot be closed, whatever else holds', () => {
    const { ready, missing } = readyToClose({ phrase, chosen: [chosen[0]], results: [...held, day('phrase', '2025-03-26')] });
    expect([ready, missing.map(({ code }) => code)]).toEqual([false, ['progress-use-not-chosen', 'progress-check-later']]);
  });

  it.each([
    { families: undefined, missing: ['progress-family-not-yet'] },
    { families: ['pad', 'use'], missing: [] },
    { families: ['pad'], missing: [] },
    { families: [], missing: [] },
    { families: ['pad', 'fill'], missing: ['progress-family-not-yet'] },
  ] as const)('a groove that never held counts only when chosen, use always: $families (says: issue 7, every family chosen, use included)', (row) => {
    const withGroove = [...chosen, { exerciseId: 'groove', family: 'groove', goalBpm: 96 }] as const;
    const counting = row.families ? { families: row.families } : {};
    const told = readyToClose({ phrase, chosen: withGroove, results: [...held, day('phrase', '2025-02-26')], ...counting });
    expect(told.missing.map(({ code }) => code).filter((code) => code !== 'progress-check-later')).toEqual(row.missing);
    expect(told.ready).toBe(row.missing.length === 0);
    const withoutUse = readyToClose({ phrase, chosen: withGroove, results: bothDays('pad'), ...counting });
    expect(withoutUse.missing).toContainEqual({ code: 'progress-family-not-yet', params: { family: 'use' } });
  });

  it('the player’s word counts, and is told as such', () => {
    const { there } = readyToClose({ phrase, chosen, results: held.map((result) => ({ ...result, byEar: false })) });
    expect(there.map((statement) => say(statement))[0]).toBe('Pad work: clean at the tempo wanted on 2 days, by your word.');
  });

  describe('closed and come back', () => {
    const after = (clean: readonly number[]) =>
      cameBack('2025-03-01', { phrase, results: clean.map((count, k) => day('phrase', `2025-03-0${k + 2}`, { clean: count })) });

    it.each([
      { name: 'one bad day is one bad day', clean: [5], days: null },
      { name: 'a good day between counts it anew', clean: [5, 9, 5], days: null },
      { name: 'two in a row: it came back', clean: [9, 5, 6], days: 2 },
      { name: 'too few runs tell nothing', clean: [], days: null },
    ])('$name (says: issue 7, reopened if it comes back)', ({ clean, days }) => {
      expect(after(clean)?.params.days ?? null).toBe(days);
    });

    it('what was before the closing does not count, nor what was slower', () => {
      const poor = { clean: 3 };
      const results = [day('phrase', '2025-02-26', poor), day('phrase', '2025-02-27', poor), day('phrase', '2025-03-02', { ...poor, tempoBpm: 80 })];
      expect(cameBack('2025-03-01', { phrase, results })).toBe(null);
    });
  });
});
