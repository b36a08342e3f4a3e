import { fold, type RecordDraft, writeRecord } from '@evenhand/core/diary';
import type { Exercise } from '@evenhand/core/exercise';
import { expect, test } from 'vitest';
import { arranged, type Choices, choicesOf, type Stands, shelfIdOf, writingOf, written } from './choices.ts';
import { emptyPhrase } from './phrase.ts';
import { comesUp, materialOf, planFor, plannedAgain, usualPlan } from './planning.ts';
import { NOTHING_AGREED, type StandingPlan, savedExercise } from './savedplan.ts';

const phrase = { ...emptyPhrase, sticking: 'RLRLKK', tempo: '92' };
const phraseId = shelfIdOf(phrase)!;
const CELL = { first: 4, last: 5 };
const material = materialOf(phrase, CELL)!;
const [a, b, c, d] = material.exercises as readonly [Exercise, Exercise, Exercise, Exercise];
const own = written({ title: 'Mine', sticking: 'RLKK', perBeat: 4, drums: '' }, null).value!;

/** A diary of choices, each made after the one before. */
const diaryOf = (...said: readonly (readonly [Exercise, Stands, (boolean | string)?])[]) =>
  fold(
    said.map(([exercise, is, more], counter) => {
      const body = { exercise: savedExercise(exercise), phraseId: typeof more === 'string' ? more : phraseId, is, own: more === true };
      const draft: RecordDraft = { kind: 'choice', atMs: 0, zone: 'UTC', day: '2026-01-05', body };
      const made = { wallMs: 0, counter, deviceId: 'b'.repeat(32) };
      return writeRecord(draft, { id: counter.toString(16).padStart(32, '0'), ownerId: 'a'.repeat(32), made });
    }),
  );
const ids = (exercises: readonly Exercise[]) => exercises.map(({ id }) => id);
const shelf = [a, b, c, d];
const laid = (choices: Choices) => ids(arranged(shelf, choices));

test.each([
  { says: 'issue 3: kept comes first', said: [[c, 'kept']], first: [c, a, b, d] },
  { says: 'issue 3: dropped does not come', said: [[a, 'dropped']], first: [b, c, d] },
  {
    says: 'what was brought back comes again where it was',
    said: [
      [a, 'dropped'],
      [a, 'open'],
    ],
    first: [a, b, c, d],
  },
  { says: 'issue 3: added by hand', said: [[own, 'open', true]], first: [own, a, b, c, d] },
  {
    says: 'kept before what was only written',
    said: [
      [own, 'open', true],
      [d, 'kept'],
    ],
    first: [d, own, a, b, c],
  },
  {
    says: 'own ones can be dropped',
    said: [
      [own, 'open', true],
      [own, 'dropped', true],
    ],
    first: [a, b, c, d],
  },
  {
    says: 'own ones of another phrase stay on its shelf',
    said: [
      [own, 'open', true],
      [own, 'kept', 'another'],
    ],
    first: [a, b, c, d],
  },
  { says: 'kept on another shelf, it comes first on this one too where it lies', said: [[d, 'kept', 'another']], first: [d, a, b, c] },
] as const)('$says', ({ said, first }) => {
  expect(laid(choicesOf(diaryOf(...said), phraseId))).toEqual(ids(first));
});

test('what was dropped from this shelf can be looked at; another shelf’s not', () => {
  expect(ids(choicesOf(diaryOf([a, 'dropped'], [b, 'dropped', 'another']), phraseId).dropped)).toEqual([a.id]);
});

test('what was dropped is never planned, and what was kept is (issue 3)', () => {
  const planned = (from: typeof material) =>
    new Set(planFor(from, usualPlan('2026-01-05', 92), []).value!.sessions.flatMap(({ blocks }) => blocks.map(({ exerciseId }) => exerciseId)));
  const before = planned(material);
  const gone = material.exercises.find(({ id }) => before.has(id) && id !== material.phrase.id)!;
  const last = [...material.exercises].reverse().find(({ id, family }) => family === gone.family && !before.has(id))!;
  const after = planned(materialOf(phrase, CELL, { diary: diaryOf([gone, 'dropped'], [last, 'kept']) })!);
  expect([after.has(gone.id), after.has(last.id)]).toEqual([false, true]);
});

test('dropped while a plan stands: it is planned again without it, and the days stay (issue 3: nothing of the past rewritten, days kept)', () => {
  const [today, tomorrow] = ['2026-01-05', '2026-01-06'];
  const plan = planFor(material, usualPlan(today, 92), []).value!;
  const gone = plan.sessions.flatMap(({ blocks }) => blocks).find(({ exerciseId }) => exerciseId !== material.phrase.id)!.exerciseId;
  const standing: StandingPlan = {
    id: 'p',
    stickingPointId: null,
    goalBpm: 92,
    minutes: 12,
    plan,
    exercises: material.exercises,
    agreed: NOTHING_AGREED,
  };
  const without = materialOf(phrase, CELL, { diary: diaryOf([material.exercises.find(({ id }) => id === gone)!, 'dropped']) })!;
  const again = plannedAgain(standing, without, { done: [today], today: tomorrow, known: [] })!.plan;
  expect([comesUp(plan, gone, today), comesUp(again, gone, tomorrow)]).toEqual([true, false]);
  expect(again.sessions.map(({ date }) => date)).toEqual(plan.sessions.map(({ date }) => date));
  expect(again.sessions[0]).toEqual(plan.sessions[0]);
});

test('an exercise that was changed is one of its own: its kind stays, its reason says what it was made of (issue 3: edited)', () => {
  const { value } = written({ ...writingOf(a), sticking: `${a.sticking} -` }, a);
  expect(value).toMatchObject({ family: a.family, meter: a.meter, reason: { code: 'reason-own-from' } });
  expect(value!.id).not.toBe(a.id);
  expect(written(writingOf(a), a).value!.id).toBe(a.id);
});

test('drums that do not go with the strokes are told, and nothing is made', () => {
  const { value, problems } = written({ title: '', sticking: 'RLRL', perBeat: 4, drums: 'snare kick' }, null);
  expect([value, problems.map(({ code }) => code)]).toEqual([null, ['surfaces-count']]);
});
