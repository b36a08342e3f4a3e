/** Today refitted: minutes exact, nothing that cannot be played or heard there, and what hurts stops it. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Exercise } from '../exercise/index.ts';
import { say } from '../words/index.ts';
import { makePlan } from './make.ts';
import { FEET_ANSWERS } from './place.ts';
import type { PlannedSession } from './plan.ts';
import { exercise, PHRASE, SHELF } from './shelf.case.ts';
import { refitToday } from './today.ts';

const SESSIONS = makePlan({ phrase: PHRASE, goalBpm: 96, exercises: SHELF, weeks: 5, days: 5, minutes: 12, start: '2025-01-06' }).value!.sessions;
const OPTIONS = { exercises: SHELF };
const anySession = fc.constantFrom(...SESSIONS);
const sumOf = ({ blocks }: PlannedSession) => blocks.reduce((sum, { minutes }) => sum + minutes, 0);
const exercisesOf = (session: PlannedSession, all: readonly Exercise[] = SHELF) =>
  session.blocks.map(({ exerciseId }) => all.find(({ id }) => id === exerciseId)!);
const hasFeet = ({ sticking }: Exercise) => /[KH]/.test(sticking);

describe('minutes', () => {
  it('fill exactly, for any session and any minutes', () => {
    fc.assert(
      fc.property(anySession, fc.integer({ min: 3, max: 60 }), (session, minutes) => {
        const { session: fitted } = refitToday(session, { kind: 'minutes', minutes }, OPTIONS);
        expect([fitted!.minutes, sumOf(fitted!), fitted!.date]).toEqual([minutes, minutes, session.date]);
      }),
      { seed: 7 },
    );
  });

  it('five of them keep warm-up, what came first, and the phrase; the reference take is left out and that is said', () => {
    const { session, changes } = refitToday(SESSIONS[0]!, { kind: 'minutes', minutes: 5 }, OPTIONS);
    expect(session!.blocks.map(({ part, minutes }) => [part, minutes])).toEqual([
      ['warmUp', 0.75],
      ['work', 3.75],
      ['use', 0.5],
    ]);
    expect(session!.blocks[1]!.reason.code).toBe('plan-reason-new');
    expect(changes.map(({ code }) => code)).toEqual(['plan-minutes-changed', 'plan-reference-left-out']);
  });
});

it('tired hands: half the work, slower, and never more than was planned', () => {
  for (const session of SESSIONS) {
    const { session: fitted, changes } = refitToday(session, { kind: 'handsTired' }, OPTIONS);
    const workOf = ({ blocks }: PlannedSession) => blocks.filter(({ part }) => part === 'work');
    expect(sumOf(fitted!)).toBe(fitted!.minutes);
    expect(fitted!.minutes).toBeLessThan(session.minutes);
    expect(Math.max(...workOf(fitted!).map(({ tempoBpm }) => tempoBpm))).toBeLessThan(Math.max(...workOf(session).map(({ tempoBpm }) => tempoBpm)));
    expect(changes.map(({ code }) => code)).toContain('plan-slower');
  }
});

it('something hurts: no session, nothing else offered, a sentence that sends to a clinician (JOB.md)', () => {
  expect(refitToday(SESSIONS[0]!, { kind: 'hurts' }, OPTIONS)).toEqual({
    session: null,
    feetHeard: true,
    asks: [],
    changes: [{ code: 'plan-hurts', params: {} }],
  });
});

describe('feet without a kit', () => {
  const withFeet = SESSIONS[0]!;

  it('asks what the feet do, and changes nothing before there is an answer', () => {
    const today = refitToday(withFeet, { kind: 'feetWithoutKit' }, OPTIONS);
    expect([today.session, today.asks]).toEqual([withFeet, FEET_ANSWERS]);
  });

  it('practice pedal: as planned, heard', () => {
    const today = refitToday(withFeet, { kind: 'feetWithoutKit', feet: 'practicePedal' }, OPTIONS);
    expect([today.session, today.feetHeard]).toEqual([withFeet, true]);
  });

  it('foot on the floor: the feet are marked as not heard, and no reference take is made of what cannot be heard', () => {
    const today = refitToday(withFeet, { kind: 'feetWithoutKit', feet: 'footOnFloor' }, OPTIONS);
    expect(today.feetHeard).toBe(false);
    expect(today.session!.blocks.map(({ part }) => part)).not.toContain('reference');
    expect(sumOf(today.session!)).toBe(12);
  });

  it('moved to the hands: what stands for the exercise is played; hands only: something for the hands', () => {
    const moved = exercise('pad', 'RLRLRR');
    const today = refitToday(withFeet, { kind: 'feetWithoutKit', feet: 'movedToHands' }, { exercises: SHELF, instead: { [PHRASE.id]: moved } });
    const phraseBlocks = withFeet.blocks.flatMap(({ exerciseId }, k) => (exerciseId === PHRASE.id ? [k] : []));
    expect(phraseBlocks.map((k) => today.session!.blocks[k]!.exerciseId)).toEqual(phraseBlocks.map(() => moved.id));
    const handsOnly = refitToday(withFeet, { kind: 'feetWithoutKit', feet: 'handsOnly' }, OPTIONS).session!;
    expect(exercisesOf(handsOnly).some(hasFeet)).toBe(false);
    expect(sumOf(handsOnly)).toBe(12);
  });

  it('when nothing can be played there, there is no session and nothing is pretended', () => {
    const today = refitToday(withFeet, { kind: 'feetWithoutKit', feet: 'handsOnly' }, { exercises: SHELF.filter(hasFeet) });
    expect([today.session, today.changes.map(({ code }) => code)]).toEqual([null, ['plan-nothing-left']]);
  });
});

it('only a pad: one hand drum at most, minutes exact, feet only where they have something to do', () => {
  fc.assert(
    fc.property(anySession, fc.constantFrom(...FEET_ANSWERS), (session, feet) => {
      const { session: fitted } = refitToday(session, { kind: 'onlyPad', feet }, OPTIONS);
      expect(sumOf(fitted!)).toBe(12);
      for (const each of exercisesOf(fitted!)) {
        const drums = each.surfaces.filter((drum) => drum !== 'kick' && drum !== 'hi-hat-foot');
        expect(new Set(drums).size).toBeLessThanOrEqual(1);
        if (feet === 'movedToHands' || feet === 'handsOnly') expect(hasFeet(each)).toBe(false);
      }
    }),
    { seed: 11 },
  );
});

it('after something hurt: slower than after days away, nothing new, no reference take, no rise within the session; back after three days of practice (JOB.md, pain is never progress)', () => {
  for (const session of SESSIONS) {
    const work = (one: PlannedSession) => one.blocks.filter(({ part }) => part === 'work' || part === 'use');
    const shares = [0, 1, 2].map((sinceHurt) => {
      const { session: slow, changes } = refitToday(session, { kind: 'backAfter', days: 19, sinceHurt }, OPTIONS);
      const { session: away } = refitToday(session, { kind: 'backAfter', days: 19 }, OPTIONS);
      expect(slow!.blocks.some(({ part, reason, way }) => part === 'reference' || reason.code === 'plan-reason-new' || way === 'bursts')).toBe(false);
      // Such an aim keeps the tempo of a block where it is.
      expect(work(slow!).every(({ aim }) => aim.code === 'plan-aim-easy')).toBe(true);
      expect(Math.max(...work(slow!).map(({ tempoBpm }) => tempoBpm))).toBeLessThanOrEqual(Math.max(...work(away!).map(({ tempoBpm }) => tempoBpm)));
      expect([sumOf(slow!), say(changes[0]!)]).toEqual([
        12,
        expect.stringMatching(/^Slow today, because something hurt before: .* licensed clinician\.$/),
      ]);
      return work(slow!).at(-1)!.tempoBpm / work(session).at(-1)!.tempoBpm;
    });
    expect(shares[0]).toBeLessThanOrEqual(0.8);
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    expect(refitToday(session, { kind: 'backAfter', days: 1, sinceHurt: 3 }, OPTIONS)).toEqual(
      refitToday(session, { kind: 'backAfter', days: 1 }, OPTIONS),
    );
  }
});
