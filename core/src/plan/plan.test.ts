/** Laws of a plan, for any weeks, days, minutes and shelf. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, daysBetween, isDay, type Weekday, weekdayOf } from '../day.ts';
import type { Exercise } from '../exercise/index.ts';
import { say } from '../words/index.ts';
import { makePlan } from './make.ts';
import { VARIETY_LIMIT } from './parameters.ts';
import type { KnownTempo, Plan, PlannedBlock, PlanRequest } from './plan.ts';
import { HAND_PHRASE, PHRASE, SHELF } from './shelf.case.ts';
import { assumedGoalBpm } from './starttempo.ts';
import { holdsPhrase, nearTwins } from './twins.ts';

const request = (changes: Partial<PlanRequest> = {}): PlanRequest => ({
  phrase: PHRASE,
  goalBpm: 96,
  exercises: SHELF,
  weeks: 5,
  days: 5,
  minutes: 12,
  start: '2025-01-06',
  ...changes,
});

const planOf = (asked: PlanRequest): Plan => makePlan(asked).value!;

/** Any request that can be planned. */
const anyRequest: fc.Arbitrary<PlanRequest> = fc
  .record({
    phrase: fc.constantFrom(PHRASE, HAND_PHRASE),
    goalBpm: fc.integer({ min: 40, max: 200 }),
    exercises: fc.subarray([...SHELF]),
    weeks: fc.integer({ min: 1, max: 6 }),
    days: fc.oneof(fc.integer({ min: 1, max: 7 }), fc.subarray([1, 2, 3, 4, 5, 6, 7] as Weekday[], { minLength: 1 })),
    minutes: fc.integer({ min: 3, max: 60 }),
    start: fc.integer({ min: 0, max: 3000 }).map((n) => addDays('2023-11-01', n)),
    who: fc.constantFrom('player' as const, 'pupil' as const),
    results: fc.array(
      fc.record({ of: fc.nat({ max: SHELF.length - 1 }), tempoBpm: fc.integer({ min: 30, max: 200 }), days: fc.integer({ min: 1, max: 9 }) }),
    ),
  })
  .map(({ results, ...asked }) => ({ ...asked, known: results.map(({ of, ...rest }) => ({ exerciseId: SHELF[of]!.id, ...rest })) }));

const perWeekOf = ({ days }: PlanRequest): number => (typeof days === 'number' ? days : days.length);
const exerciseOf = (asked: PlanRequest, id: string): Exercise | undefined =>
  [asked.phrase, ...asked.exercises].find((exercise) => exercise.id === id);

const law = (name: string, holds: (plan: Plan, asked: PlanRequest) => void) =>
  it(name, () => {
    fc.assert(
      fc.property(anyRequest, (asked) => holds(planOf(asked), asked)),
      { seed: 3, numRuns: 60 },
    );
  });

describe('laws of every plan', () => {
  law('minutes are filled exactly, compared without tolerance (issue 3)', (plan, { minutes }) => {
    for (const session of plan.sessions) {
      expect(session.minutes).toBe(minutes);
      expect(session.blocks.reduce((sum, block) => sum + block.minutes, 0)).toBe(minutes);
      expect(session.blocks.every((block) => block.minutes > 0)).toBe(true);
    }
  });

  law('days are kept: so many sessions as weeks and days make, ascending, on the same days of the week, each week full', (plan, asked) => {
    const perWeek = perWeekOf(asked);
    const dates = plan.sessions.map(({ date }) => date);
    expect(dates).toHaveLength(asked.weeks * perWeek);
    expect(dates).toEqual([...new Set(dates)].sort());
    for (const date of dates) expect(isDay(date) && plan.weekdays.includes(weekdayOf(date))).toBe(true);
    for (let week = 0; week < asked.weeks; week++) {
      const inWeek = dates.filter((date) => Math.floor(daysBetween(asked.start, date) / 7) === week);
      expect(inWeek).toHaveLength(perWeek);
    }
  });

  law('every block has an exercise that exists, a whole tempo, an aim, a reason and a reason for its tempo, each with a sentence', (plan, asked) => {
    for (const block of plan.sessions.flatMap(({ blocks }) => blocks)) {
      expect(exerciseOf(asked, block.exerciseId)).toBeDefined();
      expect(Number.isInteger(block.tempoBpm) && block.tempoBpm >= 20).toBe(true);
      for (const statement of [block.aim, block.reason, block.tempoReason]) expect(say(statement)).toMatch(/^[A-Z].*[.?]$/);
    }
  });

  law('a session is warm-up, reference takes, work, end, and ends on the phrase (Allen 2013)', (plan, asked) => {
    for (const { blocks } of plan.sessions) {
      expect(blocks.map(({ part }) => part).join(' ')).toMatch(/^warmUp( reference){0,2}( work)+ use$/);
      expect(holdsPhrase(exerciseOf(asked, blocks.at(-1)!.exerciseId)!, asked.phrase)).toBe(true);
    }
  });

  law('the variety limit is kept over any stretch of as many sessions as a week has (JOB.md: players 4–5, pupils 2–3)', (plan, asked) => {
    const perWeek = perWeekOf(asked);
    const limit = VARIETY_LIMIT[asked.who ?? 'player'];
    for (let first = 0; first < plan.sessions.length; first++) {
      const week = plan.sessions.slice(first, first + perWeek).flatMap(({ blocks }) => blocks.map(({ exerciseId }) => exerciseId));
      expect(new Set(week).size).toBeLessThanOrEqual(limit);
    }
  });

  law('one new exercise at a time: what was not played before begins alone, and the next not before it was played twice', (plan, asked) => {
    const played = new Map<string, number>([[asked.phrase.id, 2], ...(asked.known ?? []).map(({ exerciseId }) => [exerciseId, 2] as const)]);
    for (const { blocks } of plan.sessions) {
      const ids = new Set(blocks.map(({ exerciseId }) => exerciseId));
      const begun = [...ids].filter((id) => !played.has(id));
      expect(begun.length).toBeLessThanOrEqual(1);
      if (begun.length === 1) expect([...played.values()].every((times) => times >= 2)).toBe(true);
      for (const id of ids) played.set(id, (played.get(id) ?? 0) + 1);
    }
  });

  law('reasons are true: new means never before, learning means once before, returning counts the sessions right', (plan, asked) => {
    plan.sessions.forEach(({ blocks }, at) => {
      for (const block of blocks) expectTrue(block, { earlier: sessionsWith(plan, block.exerciseId).filter((k) => k < at), at, asked });
    });
  });

  law('near-twins of each other are not worked on in one session; the phrase itself is the exception (Allen 2013)', (plan, asked) => {
    for (const { blocks } of plan.sessions) {
      const ids = [...new Set(blocks.filter(({ part }) => part === 'work').map(({ exerciseId }) => exerciseId))].filter(
        (id) => id !== asked.phrase.id,
      );
      const exercises = ids.map((id) => exerciseOf(asked, id)!);
      for (const a of exercises) for (const b of exercises) if (a !== b) expect(nearTwins(a, b)).toBe(false);
    }
  });

  law('work alternates: no exercise twice in a row, unless it is new today or the only one (Carter & Grahn 2016)', (plan) => {
    for (const { blocks } of plan.sessions) {
      const work = blocks.filter(({ part }) => part === 'work');
      const different = new Set(work.map(({ exerciseId }) => exerciseId)).size;
      work.slice(1).forEach((block, k) => {
        if (different > 1 && block.reason.code !== 'plan-reason-new') expect(block.exerciseId).not.toBe(work[k]!.exerciseId);
      });
    }
  });

  law('one reference take a week, of the phrase, at tempi that never change, ninety seconds at most (JOB.md)', (plan, asked) => {
    const takes = plan.sessions.map(({ blocks }) => blocks.filter(({ part }) => part === 'reference'));
    takes.forEach((blocks, k) => {
      expect(blocks.length > 0).toBe(k % perWeekOf(asked) === 0);
      expect(blocks.reduce((sum, { minutes }) => sum + minutes, 0)).toBeLessThanOrEqual(1.5);
      if (blocks.length > 0) expect(blocks).toMatchObject(takes[0]!.map(({ tempoBpm }) => ({ tempoBpm, exerciseId: asked.phrase.id })));
    });
  });

  law('no work is faster than the phrase is wanted, and the warm-up is the slowest of its exercise', (plan, asked) => {
    for (const { blocks } of plan.sessions) {
      for (const { part, tempoBpm, exerciseId } of blocks) {
        const { perBeat } = exerciseOf(asked, exerciseId)!;
        // Never below the slowest tempo there is.
        if (part === 'work') expect(tempoBpm).toBeLessThanOrEqual(Math.max(20, (asked.goalBpm * asked.phrase.perBeat) / perBeat));
      }
      const [warmUp, ...others] = blocks;
      for (const { exerciseId, tempoBpm, part } of others)
        if (exerciseId === warmUp!.exerciseId && part !== 'reference') expect(tempoBpm).toBeGreaterThanOrEqual(warmUp!.tempoBpm);
    }
  });

  law('the reason of a tempo is true: known from results, the tempo wanted, or below the phrase', (plan, asked) => {
    const knownOf = (id: string) => asked.known?.find(({ exerciseId }) => exerciseId === id);
    for (const { tempoBpm, exerciseId, tempoReason, part } of plan.sessions.flatMap(({ blocks }) => blocks)) {
      const known = knownOf(exerciseId);
      if (part === 'warmUp' || part === 'reference') expect(['plan-tempo-warm-up', 'plan-tempo-fixed']).toContain(tempoReason.code);
      else if (known) expect(tempoBpm).toBeLessThanOrEqual(Math.max(20, known.tempoBpm));
      else expect(['plan-tempo-known', 'plan-tempo-wanted']).not.toContain(tempoReason.code);
      if ('fromBpm' in tempoReason.params) expect(tempoBpm).toBeLessThanOrEqual(tempoReason.params.fromBpm as number);
    }
  });

  law('the same request gives the same plan', (plan, asked) => {
    expect(planOf(asked)).toEqual(plan);
  });
});

describe('what JOB.md describes', () => {
  it('a usual twelve minutes are two of warm-up, three times three of work, one of use', () => {
    const { blocks } = planOf(request()).sessions[1]!;
    expect(blocks.map(({ part, minutes }) => [part, minutes])).toEqual([
      ['warmUp', 2],
      ['work', 3],
      ['work', 3],
      ['work', 3],
      ['use', 1],
    ]);
  });

  it('all families have their turn in five weeks of five days, and the last days end in music', () => {
    const plan = planOf(request());
    const ids = plan.sessions.flatMap(({ blocks }) => blocks.map(({ exerciseId }) => exerciseId)).filter((id) => id !== PHRASE.id);
    const families = ids.map((id) => exerciseOf(request(), id)!.family);
    expect(new Set(families).size).toBe(8);
    expect(plan.sessions.flatMap(({ blocks }) => blocks.map(({ reason }) => reason.code))).toContain('plan-reason-ends-in-music');
  });

  it('a pupil has two or three exercises a week, the phrase among them', () => {
    const week = planOf(request({ who: 'pupil', minutes: 5 })).sessions.slice(5, 10);
    const count = new Set(week.flatMap(({ blocks }) => blocks.map(({ exerciseId }) => exerciseId))).size;
    expect([2, 3]).toContain(count);
  });

  it('each new setting is expected to start lower than the phrase itself', () => {
    const plan = planOf(request({ known: [{ exerciseId: PHRASE.id, tempoBpm: 80, days: 3 }] }));
    for (const { reason, tempoBpm, exerciseId } of plan.sessions.flatMap(({ blocks }) => blocks)) {
      const speed = tempoBpm * exerciseOf(request(), exerciseId)!.perBeat;
      if (reason.code === 'plan-reason-new') expect(speed).toBeLessThan(80 * PHRASE.perBeat);
    }
  });

  it('a new exercise that keeps the sticking starts above one that keeps the rhythm, and that above one that keeps nothing (Meyer & Palmer 2003: the order)', () => {
    const plan = planOf(request());
    const startOf = (code: string) =>
      plan.sessions.flatMap(({ blocks }) => blocks).find(({ tempoReason, part }) => part === 'work' && tempoReason.code === code)!.tempoBpm;
    expect(startOf('plan-tempo-shares-sticking')).toBeGreaterThan(startOf('plan-tempo-shares-nothing'));
  });

  it('results open families: with two that hold, a fourth is begun in the first week', () => {
    const held = SHELF.filter(({ family }) => family === 'pad' || family === 'rudiment').map(({ id }) => ({ exerciseId: id, tempoBpm: 96, days: 2 }));
    const begun = (known: readonly KnownTempo[]) =>
      planOf(request({ known, exercises: SHELF.filter(({ family }) => ['pad', 'rudiment', 'dynamics', 'inversion'].includes(family)) }))
        .sessions.slice(0, 5)
        .flatMap(({ blocks }) =>
          blocks.filter(({ exerciseId }) => exerciseId !== PHRASE.id).map(({ exerciseId }) => exerciseOf(request(), exerciseId)!.family),
        );
    expect(begun(held)).toContain('inversion');
    expect(begun([])).not.toContain('inversion');
  });
});

describe('calendar', () => {
  it.each([
    {
      start: '2025-01-06',
      weeks: 2,
      days: [1, 3, 5] as Weekday[],
      expected: ['2025-01-06', '2025-01-08', '2025-01-10', '2025-01-13', '2025-01-15', '2025-01-17'],
      says: 'FACTS.md 10, RFC 5545 with dateutil: WEEKLY;COUNT=6;BYDAY=MO,WE,FR',
    },
    {
      start: '2024-02-25',
      weeks: 1,
      days: 7,
      expected: ['2024-02-25', '2024-02-26', '2024-02-27', '2024-02-28', '2024-02-29', '2024-03-01', '2024-03-02'],
      says: 'FACTS.md 10: DAILY from 2024-02-25 crosses Feb 29',
    },
    {
      start: '2025-03-28',
      weeks: 1,
      days: 7,
      expected: ['2025-03-28', '2025-03-29', '2025-03-30', '2025-03-31', '2025-04-01', '2025-04-02', '2025-04-03'],
      says: 'European clock change on 2025-03-30: consecutive civil dates',
    },
    { start: '2024-12-30', weeks: 1, days: [3, 1] as Weekday[], expected: ['2024-12-30', '2025-01-01'], says: 'Gregorian calendar: across the year' },
  ])('sessions from $start ($says)', ({ start, weeks, days, expected }) => {
    expect(planOf(request({ start, weeks, days })).sessions.map(({ date }) => date)).toEqual(expected);
  });
});

describe('what cannot be planned is said', () => {
  it.each([
    { changes: { minutes: 2 }, code: 'plan-minutes-range' },
    { changes: { minutes: 61 }, code: 'plan-minutes-range' },
    { changes: { minutes: Number.NaN }, code: 'plan-minutes-range' },
    { changes: { weeks: 0 }, code: 'plan-weeks-range' },
    { changes: { weeks: 1.5 }, code: 'plan-weeks-range' },
    { changes: { days: 8 }, code: 'plan-days-range' },
    { changes: { days: [] }, code: 'plan-days-range' },
    { changes: { start: '2025-02-29' }, code: 'plan-start-not-a-day' },
    { changes: { goalBpm: 0 }, code: 'plan-tempo-range' },
  ])('$code for $changes', ({ changes, code }) => {
    const { value, problems } = makePlan(request(changes));
    expect(value).toBeNull();
    expect(problems.map((problem) => problem.code)).toEqual([code]);
    expect(say(problems[0]!)).toMatch(/[.]$/);
  });

  it('a plan without a shelf holds the phrase alone, and says so', () => {
    const { value, problems } = makePlan(request({ exercises: [] }));
    expect(problems.map(({ code, severity }) => [code, severity])).toEqual([['plan-no-exercises', 'doubtful']]);
    expect(value!.sessions).toHaveLength(25);
  });
});

it('a tempo that nobody told is assumed at the same speed of strokes (arithmetic: 6 slots a second)', () => {
  expect([assumedGoalBpm(4), assumedGoalBpm(3), assumedGoalBpm(6)]).toEqual([90, 120, 60]);
});

const sessionsWith = (plan: Plan, id: string): readonly number[] =>
  plan.sessions.flatMap(({ blocks }, k) => (blocks.some(({ exerciseId }) => exerciseId === id) ? [k] : []));

/** Holds the reason of a block against the sessions its exercise was in before. */
function expectTrue(
  { exerciseId, reason, part }: PlannedBlock,
  { earlier, at, asked }: { earlier: readonly number[]; at: number; asked: PlanRequest },
): void {
  const ofPhrase = exerciseId === asked.phrase.id;
  const truths: Partial<Record<PlannedBlock['reason']['code'], boolean>> = {
    'plan-reason-new': earlier.length === 0,
    'plan-reason-learning': earlier.length === 1,
    'plan-reason-returns': 'sessionsAgo' in reason.params && reason.params.sessionsAgo === at - earlier.at(-1)!,
    'plan-reason-phrase': ofPhrase,
    'plan-reason-ends': ofPhrase,
    'plan-reason-reference': ofPhrase && 'week' in reason.params && reason.params.week === Math.floor(at / perWeekOf(asked)) + 1,
  };
  expect([reason.code, truths[reason.code] ?? true]).toEqual([reason.code, true]);
  expect(part === 'reference').toBe(reason.code === 'plan-reason-reference');
  if ('family' in reason.params) expect(reason.params.family).toBe(exerciseOf(asked, exerciseId)!.family);
}
