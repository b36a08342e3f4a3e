/** What life does to a session: quiet hours, no microphone, a slow day, days away, one more; and other ways of work. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { say } from '../words/index.ts';
import { closePlan } from './checks.ts';
import { makePlan } from './make.ts';
import type { PlannedSession, PlanRequest } from './plan.ts';
import { readPlan } from './read.ts';
import { exercise, HAND_PHRASE, PHRASE, SHELF } from './shelf.case.ts';
import { standIns } from './standins.ts';
import { type Circumstance, refitToday } from './today.ts';
import { WAYS, withWay } from './way.ts';

const REQUEST: PlanRequest = { phrase: PHRASE, goalBpm: 96, exercises: SHELF, weeks: 5, days: 5, minutes: 12, start: '2025-01-06' };
const SESSIONS = makePlan(REQUEST).value!.sessions;
const OPTIONS = { exercises: SHELF };
const anySession = fc.constantFrom(...SESSIONS);
const sumOf = ({ blocks }: PlannedSession) => blocks.reduce((sum, { minutes }) => sum + minutes, 0);

const ANY: readonly Circumstance[] = [
  { kind: 'slowDay' },
  { kind: 'quietHours', feet: 'footOnFloor' },
  { kind: 'quietHours', feet: 'handsOnly' },
  { kind: 'noMicrophone' },
  { kind: 'backAfter', days: 4 },
  { kind: 'backAfter', days: 14 },
  { kind: 'backAfter', days: 400 },
  { kind: 'oneMore' },
];

it('a click that was chosen holds for its exercise until its day, in work and use, never in warm-up and reference takes (says: issue 8, a property of a block)', () => {
  const click = { place: 'twoAndFour', gainDb: -6 } as const;
  const until = '2025-01-10';
  const clicks = [{ exerciseId: PHRASE.id, click, fewerClicks: true, until }];
  const plain = makePlan(REQUEST).value!;
  const plan = makePlan({ ...REQUEST, clicks }).value!;
  for (const [i, { date, blocks }] of plan.sessions.entries())
    for (const [k, block] of blocks.entries()) {
      const holds = block.exerciseId === PHRASE.id && date <= until && (block.part === 'work' || block.part === 'use');
      expect(block).toEqual({ ...plain.sessions[i]!.blocks[k]!, ...(holds ? { click, fewerClicks: true } : {}) });
    }
  expect(plan.sessions.flatMap(({ blocks }) => blocks.flatMap((block) => block.click ?? [])).length).toBeGreaterThan(2);
  expect(readPlan(JSON.parse(JSON.stringify(plan))).value!.sessions).toEqual(plan.sessions);
});

it('a click in a plan that was edited by hand: what cannot be is as if it had not been said (says: docs/formats/plan.md)', () => {
  const plan = makePlan({ ...REQUEST, weeks: 1 }).value!;
  const read = (click: unknown) => {
    const [first, ...rest] = plan.sessions;
    const blocks = first!.blocks.map((block, k) => (k === 0 ? { ...block, click } : block));
    return readPlan({ ...plan, sessions: [{ ...first!, blocks }, ...rest] }).value!.sessions[0]!.blocks[0]!.click;
  };
  expect(read({ place: 'one', perBeat: 99, gainDb: 90 })).toEqual({ place: 'one' });
  expect(read({ swing: 2 / 3, accents: [0, 2], bars: { sounding: 2, silent: 2 } })).toEqual({
    swing: 2 / 3,
    accents: [0, 2],
    bars: { sounding: 2, silent: 2 },
  });
  for (const wrong of ['loud', null, 5, {}, { place: 'nowhere', accents: 'all', bars: { sounding: 0, silent: 1 } }])
    expect(read(wrong)).toBeUndefined();
});

it('whatever happens: minutes exact, the day kept, every block with a reason, something said, and twice is once (says: issue 7)', () => {
  fc.assert(
    fc.property(anySession, fc.constantFrom(...ANY), (session, circumstance) => {
      const { session: fitted, changes } = refitToday(session, circumstance, OPTIONS);
      expect(sumOf(fitted!)).toBe(fitted!.minutes);
      expect(fitted!.date).toBe(session.date);
      for (const block of fitted!.blocks)
        for (const statement of [block.aim, block.reason, block.tempoReason]) expect(say(statement)).not.toBe(statement.code);
      expect(changes.length).toBeGreaterThan(0);
      for (const change of changes) expect(say(change)).not.toBe(change.code);
      expect(refitToday(session, circumstance, OPTIONS)).toEqual({ ...refitToday(session, circumstance, OPTIONS) });
    }),
    { seed: 13, numRuns: 60 },
  );
});

describe('a day that is different', () => {
  it('quiet hours and no microphone: no reference take is made of what is not heard or not comparable', () => {
    for (const circumstance of [{ kind: 'quietHours', feet: 'footOnFloor' }, { kind: 'noMicrophone' }] as const) {
      const { session } = refitToday(SESSIONS[0]!, circumstance, OPTIONS);
      expect(session!.blocks.map(({ part }) => part)).not.toContain('reference');
      expect(session!.minutes).toBe(12);
    }
    expect(refitToday(SESSIONS[0]!, { kind: 'quietHours' }, OPTIONS).asks.length).toBeGreaterThan(0);
  });

  it('no microphone: what was to be the reference take is played where the phrase stands, not at the tempo wanted (says: our choice, found by reading a day of it)', () => {
    const [first] = SESSIONS;
    const stands = first!.blocks.at(-1)!.tempoBpm;
    const { session } = refitToday(first!, { kind: 'noMicrophone' }, OPTIONS);
    for (const [k, { part }] of first!.blocks.entries()) if (part === 'reference') expect(session!.blocks[k]!.tempoBpm).toBeLessThanOrEqual(stands);
    expect(Math.max(...first!.blocks.map(({ tempoBpm }) => tempoBpm))).toBe(96);
  });

  it('a slow day keeps all its minutes, takes a fifth off every tempo but the warm-up, and makes no take to compare', () => {
    const { session } = refitToday(SESSIONS[0]!, { kind: 'slowDay' }, OPTIONS);
    expect([session!.minutes, session!.blocks.map(({ part }) => part).includes('reference')]).toEqual([12, false]);
    for (const [k, block] of session!.blocks.entries()) {
      const before = SESSIONS[0]!.blocks[k]!;
      // What was to compare with is played where the phrase stands.
      const stands = before.part === 'reference' ? SESSIONS[0]!.blocks.at(-1)!.tempoBpm : before.tempoBpm;
      expect(block.tempoBpm).toBe(block.part === 'warmUp' ? before.tempoBpm : Math.floor(stands * 0.8));
    }
  });

  it('a fortnight away: nothing new, a tenth slower; three days away change nothing (says: issue 7, kind)', () => {
    const withNew = SESSIONS.find(({ blocks }) => blocks.some(({ reason }) => reason.code === 'plan-reason-new'))!;
    const { session } = refitToday(withNew, { kind: 'backAfter', days: 14 }, OPTIONS);
    expect(session!.blocks.map(({ reason }) => reason.code)).not.toContain('plan-reason-new');
    const useBpm = (of: PlannedSession) => of.blocks.at(-1)!.tempoBpm;
    expect(useBpm(session!)).toBe(Math.floor(useBpm(withNew) * 0.9));
    expect(refitToday(withNew, { kind: 'backAfter', days: 3 }, OPTIONS).session).toBe(withNew);
  });

  it('one more on the same day: half as long, nothing new', () => {
    const { session } = refitToday(SESSIONS[0]!, { kind: 'oneMore' }, OPTIONS);
    expect(session!.minutes).toBe(6);
    expect(session!.blocks.map(({ reason }) => reason.code)).not.toContain('plan-reason-new');
  });
});

describe('what two weeks lived by hand showed', () => {
  const known = [{ exerciseId: PHRASE.id, tempoBpm: 80, days: 9, stuckDays: 5 }];
  const stuck = makePlan({ ...REQUEST, exercises: [], known }).value!.sessions.find(({ blocks }) => blocks.some(({ way }) => way === 'bursts'))!;

  it('tired hands and a slow day have no turn at the tempo wanted: all of the phrase is a fifth below where it stands (arithmetic: .8 · 80 = 64)', () => {
    for (const kind of ['handsTired', 'slowDay'] as const) {
      const { session } = refitToday(stuck, { kind }, OPTIONS);
      const own = session!.blocks.filter(({ part, exerciseId }) => part !== 'warmUp' && exerciseId === PHRASE.id);
      expect(new Set(own.map(({ tempoBpm, reason }) => `${tempoBpm} ${reason.code === 'plan-reason-stuck'}`))).toEqual(new Set(['64 false']));
    }
  });

  it('after days away the aim is what it was: the tempo may come back', () => {
    const { session } = refitToday(SESSIONS[8]!, { kind: 'backAfter', days: 14 }, OPTIONS);
    expect(session!.blocks.map(({ aim }) => aim.code)).not.toContain('plan-aim-easy');
    for (const { aim, tempoBpm } of session!.blocks) expect(aim.params.tempoBpm).toBe(tempoBpm);
  });

  it('a check weeks later is what it is, however many days have passed', () => {
    const check = closePlan(makePlan(REQUEST).value!, REQUEST, { today: '2025-02-10' }).plan.sessions.at(-1)!;
    expect(refitToday(check, { kind: 'backAfter', days: 21 }, OPTIONS).session).toBe(check);
    expect(refitToday(check, { kind: 'noMicrophone' }, OPTIONS).session).toBe(check);
  });

  it('hands alone have no exercise that is hardly a stroke: KK-- has none, the phrase RLRL--', () => {
    const name = () => 'x';
    const [kicks, phrase] = [exercise('pad', 'R+KK--'), PHRASE];
    expect(Object.keys(standIns([kicks, phrase], { onlyPad: true, feet: 'handsOnly' }, name))).toEqual([phrase.id]);
  });
});

describe('ways of work', () => {
  it('change only the work blocks of one exercise, keep minutes and order, and go back without a trace', () => {
    fc.assert(
      fc.property(anySession, fc.constantFrom(...WAYS), (session, way) => {
        const id = session.blocks.find(({ part }) => part === 'work')!.exerciseId;
        const changed = withWay(session, id, { way, goalBpm: 96 });
        expect(sumOf(changed)).toBe(session.minutes);
        for (const [k, block] of changed.blocks.entries()) {
          const before = session.blocks[k]!;
          if (before.part !== 'work' || before.exerciseId !== id) expect(block).toEqual(before);
          expect([block.exerciseId, block.minutes]).toEqual([before.exerciseId, before.minutes]);
          expect(block.tempoBpm).toBeLessThanOrEqual(Math.max(96, before.tempoBpm));
          expect(say(block.aim)).not.toBe(block.aim.code);
        }
      }),
      { seed: 17, numRuns: 40 },
    );
  });

  it('two up, one back: three turns at 1, 2 and 1 steps of 3 % (arithmetic: 72 · 1.03, 1.06, 1.03)', () => {
    const session = makePlan({ ...REQUEST, exercises: [], weeks: 1 }).value!.sessions[1]!;
    const turns = withWay(session, PHRASE.id, { way: 'twoUpOneBack', goalBpm: 96 }).blocks.filter(({ part }) => part === 'work');
    expect(turns.map(({ tempoBpm }) => tempoBpm)).toEqual([74, 76, 74]);
  });

  it('a phrase that stood still for days gets one turn of bursts at the tempo wanted, with the reason; not under a teacher’s cap', () => {
    const known = [{ exerciseId: PHRASE.id, tempoBpm: 80, days: 9, stuckDays: 5 }];
    const bursts = (request: PlanRequest) => makePlan(request).value!.sessions.flatMap(({ blocks }) => blocks.filter(({ way }) => way === 'bursts'));
    const made = bursts({ ...REQUEST, exercises: [], known });
    expect(made.length).toBeGreaterThan(0);
    for (const block of made) expect([block.tempoBpm, block.reason.code]).toEqual([96, 'plan-reason-stuck']);
    expect(bursts({ ...REQUEST, exercises: [], known, caps: [{ exerciseId: PHRASE.id, tempoBpm: 84 }] })).toEqual([]);
    expect(bursts({ ...REQUEST, exercises: [], known: [{ ...known[0]!, stuckDays: 3 }] })).toEqual([]);
  });

  it('chosen for some days: the exercise has a turn on each of them, at the tempo said, and from then on results move it again (says: issue 7)', () => {
    const until = '2025-01-12';
    const chosen = (way: (typeof WAYS)[number], more: object = {}) =>
      makePlan({ ...REQUEST, days: 7, ways: [{ exerciseId: PHRASE.id, way, until, ...more }] }).value!.sessions;
    const turns = ({ blocks }: PlannedSession) => blocks.filter(({ part, exerciseId }) => part === 'work' && exerciseId === PHRASE.id);
    for (const way of WAYS) {
      for (const session of chosen(way)) {
        const own = turns(session);
        if (session.date > until) expect(own.filter((block) => block.way !== undefined)).toEqual([]);
        else expect(own.map((block) => block.way).at(-1)).toBe(way);
        expect(sumOf(session)).toBe(12);
      }
    }
    for (const session of chosen('oneTempo', { tempoBpm: 66 }).slice(0, 7)) for (const { tempoBpm } of turns(session)) expect(tempoBpm).toBe(66);
    const bursts = chosen('bursts')[0]!.blocks.find(({ way }) => way === 'bursts')!;
    expect([bursts.tempoBpm, bursts.reason.code]).toEqual([96, 'plan-reason-bursts']);
  });

  it('a cap until Sunday holds until Sunday, over bursts too (says: JOB.md, "no faster than 80 this week")', () => {
    const until = '2025-01-12';
    const ways = [{ exerciseId: PHRASE.id, way: 'bursts' as const }];
    const known = [{ exerciseId: PHRASE.id, tempoBpm: 90, days: 9 }];
    const { sessions } = makePlan({ ...REQUEST, known, ways, caps: [{ exerciseId: PHRASE.id, tempoBpm: 80, until }] }).value!;
    for (const { date, blocks } of sessions) {
      for (const block of blocks.filter(({ exerciseId, part }) => exerciseId === PHRASE.id && part !== 'reference')) {
        expect(block.capBpm).toBe(date <= until ? 80 : undefined);
        if (date <= until) expect(block.tempoBpm).toBeLessThanOrEqual(80);
      }
    }
    const fastest = Math.max(...sessions.at(-1)!.blocks.map(({ tempoBpm }) => tempoBpm));
    expect(fastest).toBe(96);
  });

  it('no faster than 80 this week: a cap holds in every block but the take that compares (says: JOB.md)', () => {
    const known = [{ exerciseId: PHRASE.id, tempoBpm: 90, days: 9 }];
    const blocks = makePlan({ ...REQUEST, known, caps: [{ exerciseId: PHRASE.id, tempoBpm: 80 }] }).value!.sessions.flatMap(
      (session) => session.blocks,
    );
    const own = blocks.filter(({ exerciseId, part }) => exerciseId === PHRASE.id && part !== 'reference');
    expect(own.length).toBeGreaterThan(0);
    for (const { tempoBpm, capBpm } of own) expect([tempoBpm <= 80, capBpm]).toEqual([true, 80]);
  });
});

describe('the player’s own blocks', () => {
  const song = exercise('use', 'RLRRLRLLRLRRLRLL');
  const own = [
    { exercise: HAND_PHRASE, as: 'warmUp', tempoBpm: 60 },
    { exercise: song, as: 'repertoire', tempoBpm: 100, minutes: 3 },
  ] as const;

  it('are in every session: the warm-up first, the piece before the end; minutes stay exact', () => {
    for (const { blocks, minutes } of makePlan({ ...REQUEST, own }).value!.sessions) {
      expect(blocks[0]).toMatchObject({ exerciseId: HAND_PHRASE.id, part: 'warmUp', tempoBpm: 60 });
      expect(blocks.at(-2)).toMatchObject({ exerciseId: song.id, minutes: 3, tempoBpm: 100, way: 'oneTempo' });
      expect([minutes, blocks.reduce((sum, block) => sum + block.minutes, 0)]).toEqual([12, 12]);
    }
  });

  it('that leave no time to practise are refused with a word', () => {
    const { value, problems } = makePlan({ ...REQUEST, own: [{ ...own[1], minutes: 10 }] });
    expect([value, problems.map(({ code }) => code)]).toEqual([null, ['plan-own-too-long']]);
    expect(say(problems[0]!)).toContain('10');
  });
});

it('what has come back rests longer each time (says: issue 7, growing distances)', () => {
  const { sessions } = makePlan({ ...REQUEST, weeks: 26 }).value!;
  const restsOf = (id: string) => {
    const at = sessions.flatMap(({ blocks }, k) => (blocks.some((block) => block.exerciseId === id) ? [k] : []));
    // More than a week of sessions between two: a rest.
    return at.slice(1).flatMap((k, i) => (k - at[i]! > 5 ? [k - at[i]!] : []));
  };
  const rests = SHELF.map(({ id }) => restsOf(id)).filter((row) => row.length > 1);
  expect(rests.length).toBeGreaterThan(5);
  for (const row of rests) for (const [i, rest] of row.slice(1).entries()) expect(rest).toBeGreaterThan(row[i]!);
});
