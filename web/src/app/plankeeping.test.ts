import { addDays } from '@evenhand/core/day';
import { fold, type RecordDraft, writeRecord } from '@evenhand/core/diary';
import { isCheck } from '@evenhand/core/plan';
import { resultsOf } from '@evenhand/core/progress';
import { expect, test } from 'vitest';
import { emptyPhrase } from './phrase.ts';
import { plannedPhrases } from './phrases.ts';
import { planKeeper } from './plankeeping.ts';
import { type Material, materialOf, planFor, usualPlan } from './planning.ts';
import { knownOf, practisedDays } from './results.ts';
import { daysOfPlan, NOTHING_AGREED, planBody, pointOf, type StandingPlan, savedExercise, standingPlans } from './savedplan.ts';

const START = '2026-01-05';
const SUNDAY = '2026-01-11';
const materialFor = (sticking: string): Material => materialOf({ ...emptyPhrase, sticking, tempo: '92' }, { first: 4, last: 5 })!;
const [first, second] = [materialFor('RLRLKK'), materialFor('RLRRLL')];
const materials = new Map([
  ['p1', first],
  ['p2', second],
]);
const on = (day: string) => ({ atMs: Date.parse(`${day}T17:00:00Z`), zone: 'UTC', day });

/** A diary that two phrases are planned in, and a keeper on a day of it. */
function deskOn(today: string, more: readonly RecordDraft[] = []) {
  const drafts: RecordDraft[] = [...pointAndPlan('p1', first), ...pointAndPlan('p2', second), ...more];
  const diary = () =>
    fold(drafts.map((draft, counter) => writeRecord(draft, { id: `r${counter}`, ownerId: 'a', made: { wallMs: 0, counter, deviceId: 'b' } })));
  const keeper = planKeeper(
    { writtenNow: () => on(today) },
    {
      append: async (more) => Boolean(drafts.push(...more)),
      materialOf: ({ stickingPointId }) => materials.get(stickingPointId!) ?? null,
    },
  );
  const planOf = (id: string): StandingPlan => standingPlans(diary()).find(({ stickingPointId }) => stickingPointId === id)!;
  return { diary, keeper, planOf, drafts };
}

function pointAndPlan(id: string, { phrase, exercises }: Material): readonly RecordDraft[] {
  const { sticking, surfaces, perBeat } = phrase;
  const plan = planFor({ phrase, exercises }, usualPlan(START, 92), []).value!;
  return [
    { kind: 'stickingPoint', id, ...on(START), body: { name: sticking, sticking, surfaces, perBeat, tempoBpm: 92, cell: { first: 4, last: 5 } } },
    { kind: 'plan', ...on(START), body: planBody(plan, { stickingPointId: id, goalBpm: 92, minutes: 12, exercises, agreed: NOTHING_AGREED }) },
  ];
}

function played(stickingPointId: string, day: string, more: object = {}): readonly RecordDraft[] {
  const sessionId = `${stickingPointId} ${day}`;
  const { phrase } = materials.get(stickingPointId)!;
  const session = { stickingPointId, plannedMinutes: 12, endedAtMs: 0, ended: 'done', reason: null } as const;
  const says = { heard: null, playerSays: 'hadIt', playerRounds: { hadIt: 8, again: 1 }, nextTempo: null, reason: null } as const;
  const block = { sessionId, position: 0, exercise: savedExercise(phrase), tempoBpm: 69, durationSec: 720, takeIds: [], ...says, ...more };
  return [
    { kind: 'session', id: sessionId, ...on(day), body: session },
    { kind: 'block', ...on(day), body: block },
  ];
}

test('two phrases: what was played of one is no session of the other; a day that was missed moves in its own plan (issue 7, several sticking points)', async () => {
  const today = addDays(START, 1);
  const { diary, keeper, planOf } = deskOn(today, played('p1', START));
  expect(plannedPhrases(diary(), START).map(({ planned }) => planned.at)).toEqual(['done', 'session']);
  const changed = await keeper.catchUp(diary());
  expect([changed.get('p2')![0]!.code, planOf('p2').plan.sessions[0]!.date]).toEqual(['plan-session-moved', today]);
  expect([changed.get('p1')!.filter(({ code }) => code === 'plan-session-moved'), planOf('p1').plan.sessions[0]!.date]).toEqual([[], START]);
});

test('put aside, nothing of it is proposed and nothing moves; taken up again, it goes on from that day (issue 7, paused and resumed)', async () => {
  const later = addDays(START, 9);
  const { diary, keeper, planOf } = deskOn(later, played('p1', START));
  await keeper.setPoint(diary(), planOf('p1'), 'paused');
  const before = planOf('p1').id;
  expect((await keeper.catchUp(diary())).get('p1')).toEqual([]);
  expect([planOf('p1').id, plannedPhrases(diary(), later)[0]!.planned.at]).toEqual([before, 'rest']);
  await keeper.setPoint(diary(), planOf('p1'), 'open');
  await keeper.catchUp(diary());
  expect(planOf('p1').plan.sessions[1]!.date >= later).toBe(true);
  expect(planOf('p1').plan.sessions[0]!.date).toBe(START);
});

test('closed, it is tried again three weeks later, on the calendar; opened, it has two weeks of work (issue 7)', async () => {
  const today = addDays(START, 2);
  const { diary, keeper, planOf } = deskOn(today, played('p1', START));
  const [said] = await keeper.setPoint(diary(), planOf('p1'), 'closed');
  const checks = planOf('p1').plan.sessions.filter(isCheck);
  expect([said!.code, checks.length, checks[0]!.date >= addDays(today, 21)]).toEqual(['plan-checks', 2, true]);
  expect(pointOf(diary(), planOf('p1'))!.body.state).toEqual({ is: 'closed', day: today });
  expect(plannedPhrases(diary(), checks[0]!.date)[0]!.planned.at).toBe('session');
  expect(plannedPhrases(diary(), today)[0]!.planned).toMatchObject({ at: 'rest', next: { date: checks[0]!.date } });
  await keeper.setPoint(diary(), planOf('p1'), 'open');
  expect(planOf('p1').plan.sessions.filter(({ date }) => date >= today)).toHaveLength(10);
});

test('a cap until Sunday is gone from the session that moved to Monday (seen in two weeks lived by hand)', async () => {
  const { diary, keeper, planOf } = deskOn(START);
  const cap = { exerciseId: first.phrase.id, tempoBpm: 60, until: SUNDAY };
  expect(await keeper.agree(diary(), planOf('p1'), { caps: [cap] })).toEqual([]);
  const capsOn = (from: string, to: string) =>
    planOf('p1')
      .plan.sessions.filter(({ date }) => date >= from && date <= to)
      .flatMap(({ blocks }) => blocks.flatMap(({ capBpm }) => capBpm ?? []));
  expect([new Set(capsOn(START, SUNDAY)), capsOn(addDays(SUNDAY, 1), '2027-01-01')]).toEqual([new Set([60]), []]);
  const monday = deskOn('2026-01-12', []);
  monday.drafts.splice(0, monday.drafts.length, ...[...pointAndPlan('p1', first), ...pointAndPlan('p2', second)]);
  await monday.keeper.agree(monday.diary(), monday.planOf('p1'), { caps: [cap] });
  await monday.keeper.catchUp(monday.diary());
  const moved = monday.planOf('p1').plan.sessions;
  expect(moved[0]!.date >= '2026-01-12').toBe(true);
  expect(moved.flatMap(({ blocks }) => blocks.flatMap(({ capBpm }) => capBpm ?? []))).toEqual([]);
});

test('own music that leaves no time is refused, and nothing is kept', async () => {
  const { diary, keeper, planOf } = deskOn(START);
  const before = planOf('p1').id;
  const own = [{ exercise: second.phrase, as: 'repertoire', tempoBpm: 90, minutes: 11 }] as const;
  const problems = await keeper.agree(diary(), planOf('p1'), { own });
  expect([problems.map(({ code }) => code), planOf('p1').id]).toEqual([['plan-own-too-long'], before]);
});

test('a tempo that was searched for is where work stands, until something is played; two minutes of it are no session of the day (issue 7)', () => {
  const search = [
    { tempoBpm: 80, clean: 2, runs: 2, byEar: true },
    { tempoBpm: 88, clean: 0, runs: 2, byEar: true },
  ];
  const found = { tempoBpm: 82, search, playerSays: null, playerRounds: { hadIt: 0, again: 0 }, reason: { code: 'tempo-searched', params: {} } };
  const { diary, planOf } = deskOn(START, [...played('p1', addDays(START, -3)), ...played('p1', START, found)]);
  expect(knownOf(resultsOf(diary()))).toMatchObject([{ exerciseId: first.phrase.id, tempoBpm: 82, days: 2 }]);
  expect(resultsOf(diary()).filter(({ runs }) => runs > 0)).toHaveLength(3);
  expect(practisedDays(daysOfPlan(diary(), planOf('p1')))).toEqual([addDays(START, -3)]);
});

test('what counts for closing stays with the plan when days are missed and when something is agreed, and can be taken back (issue 7)', async () => {
  const { diary, keeper, planOf } = deskOn(addDays(START, 1));
  const before = planOf('p1');
  await keeper.setClosing(diary(), before, ['pad']);
  expect(planOf('p1').plan).toEqual({ ...before.plan, replaces: before.id, closing: ['pad', 'use'] });
  await keeper.catchUp(diary());
  await keeper.agree(diary(), planOf('p1'), { caps: [{ exerciseId: first.phrase.id, tempoBpm: 60 }] });
  expect([planOf('p1').plan.closing, planOf('p2').plan.closing]).toEqual([['pad', 'use'], undefined]);
  await keeper.setClosing(diary(), planOf('p1'), null);
  expect(planOf('p1').plan).not.toHaveProperty('closing');
});

test('where everything that counts holds already, choosing it puts the check on the calendar (arithmetic: three weeks after the second day)', async () => {
  const later = addDays(START, 60);
  const inMusic = first.exercises.find(({ family, perBeat }) => family === 'use' && perBeat === 4)!;
  const clean = { exercise: savedExercise(inMusic), tempoBpm: 92, playerRounds: { hadIt: 10, again: 0 } };
  // In music, and the phrase as it stands.
  const both = [clean, { ...clean, exercise: savedExercise(first.phrase) }];
  const days = [START, addDays(START, 1)];
  const { diary, keeper, planOf } = deskOn(
    addDays(START, 2),
    days.flatMap((day) => both.flatMap((block) => played('p1', day, block))),
  );
  const { plan, ...rest } = planOf('p1');
  const short = { ...rest, plan: { ...plan, sessions: plan.sessions.slice(0, 3) }, exercises: [...rest.exercises, inMusic] };
  expect(await keeper.setClosing(diary(), short, ['pad', 'groove', 'use'])).toEqual([]);
  const [change] = await keeper.setClosing(diary(), short, []);
  expect(change!.code).toBe('plan-checks');
  const check = planOf('p1').plan.sessions.find(isCheck)!;
  expect([check.date >= addDays(START, 22), check.date < later]).toEqual([true, true]);
});
