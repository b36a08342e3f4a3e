import { addDays } from '@evenhand/core/day';
import { type DiaryView, fold, type SavedHeard, type SavedPlace } from '@evenhand/core/diary';
import { countingOf, readinessOfPlan } from '@evenhand/core/plan';
import { type BlockResult, comparisonsOf, type TakesCompared } from '@evenhand/core/progress';
import { say } from '@evenhand/core/words';
import { expect, test } from 'vitest';
import { zonesOverDays } from './comparing.ts';
import { emptyPhrase } from './phrase.ts';
import { materialOf, planFor, usualPlan } from './planning.ts';
import { closingWith, exerciseDays, forecastOf } from './progress.ts';
import { NOTHING_AGREED, savedExercise } from './savedplan.ts';

const START = '2026-01-05';
const { phrase, exercises } = materialOf({ ...emptyPhrase, sticking: 'RLRLKK', tempo: '92' }, { first: 4, last: 5 })!;
const plan = planFor({ phrase, exercises }, usualPlan(START, 92), []).value!;
const standing = { id: 'p', stickingPointId: null, goalBpm: 92, minutes: 12, plan, exercises, agreed: NOTHING_AGREED };

const result = (day: string, tempoBpm: number, clean: number, runs: number, exercise = phrase): BlockResult => ({
  ...{ exerciseId: exercise.id, exercise, day, tempoBpm, clean, runs, byEar: false, reference: false },
});

test('an exercise with too few runs says so, and what it is wanted at', () => {
  const [days] = exerciseDays([result(START, 69, 1, 1)], standing);
  expect(days!.points[0]!.estimate).toMatchObject({ known: false, why: { code: 'clean-tempo-few-runs' } });
  expect(days).toMatchObject({ goalBpm: 92, exercise: { sticking: 'RLRLKK' } });
});

test('a phrase that was closed keeps the tempo it was wanted at, and nothing is foretold of it', () => {
  const point = { sticking: 'RLRLKK', perBeat: 4, surfaces: [], name: 'The storm', tempoBpm: 104, state: { is: 'closed', day: START } };
  const points = [{ body: point }] as unknown as DiaryView['stickingPoints'];
  const [days] = exerciseDays([result(START, 69, 1, 1)], null, points);
  expect(days).toMatchObject({ name: 'The storm', goalBpm: 104, goesOn: false, dayCount: 1 });
  expect(forecastOf(days!, START)).toBeNull();
  expect(forecastOf({ ...days!, goesOn: true }, START)).not.toBeNull();
});

test('an exercise that takes the letters of the phrase around the drums keeps its own name, below the phrase (common practice, no source)', () => {
  const around = exercises.find(({ sticking, perBeat, family }) => family === 'kit' && sticking === phrase.sticking && perBeat === phrase.perBeat)!;
  const points = [{ body: { ...phrase, name: 'The storm', tempoBpm: 92 } }] as unknown as DiaryView['stickingPoints'];
  const days = exerciseDays([result(START, 69, 1, 1), result('2026-01-06', 60, 1, 1, around)], null, points);
  expect(days.map(({ name, exercise }) => name ?? exercise.title.code)).toEqual(['The storm', around.title.code]);
  expect(around.title.code).not.toBe('title-whole');
});

test('a triplet exercise is wanted as fast stroke for stroke: sixteenths at 92 are triplets at 122 (arithmetic: 92·4/3)', () => {
  const triplets = exercises.find(({ perBeat }) => perBeat === 3)!;
  expect(exerciseDays([result(START, 80, 1, 1, triplets)], standing)[0]!.goalBpm).toBe(122);
});

const place = (index: number, biasMs: number): SavedPlace => ({
  ...{ index, limb: 'RLRLKK'[index]!, count: 40, unsure: false, missed: 0, notAudible: 0, levelDb: -20, spreadMs: 6 },
  ...{ biasMs, biasLowMs: biasMs - 2, biasHighMs: biasMs + 2 },
});

/** A diary of reference takes alone: day, tempo, how early the last kick came, and whether the hands were on a pad. */
function diaryOf(takes: readonly { readonly day: string; readonly tempoBpm: number; readonly lastMs: number; readonly pad?: boolean }[]): DiaryView {
  const heardOf = (lastMs: number, tempoBpm: number): SavedHeard => ({
    ...{ trackedBpm: tempoBpm, offsetMs: 0, pairs: [], cleanRunCount: 10, runCount: 20, findings: [], problems: [] },
    places: [0, 1, 2, 3, 4].map((index) => place(index, 0)).concat(place(5, lastMs)),
  });
  const records = takes.flatMap(({ day, tempoBpm, lastMs, pad = false }, k) => {
    const exercise = savedExercise(phrase);
    const onPad = { ...exercise, id: 'on the pad', surfaces: exercise.surfaces.map((drum) => (drum === 'kick' ? drum : 'pad')) };
    const made = { wallMs: 0, counter: k, deviceId: 'd' };
    const envelope = { v: 1, ownerId: 'o', made, atMs: k, zone: 'UTC', day };
    const sessionId = `s${k}`;
    const session = { stickingPointId: null, plannedMinutes: 1, endedAtMs: 0, ended: 'done', reason: null };
    const block = {
      ...{ sessionId, position: 0, exercise: pad ? onPad : exercise, tempoBpm, durationSec: 45, takeIds: [], playerSays: null, nextTempo: null },
      ...{ heard: heardOf(lastMs, tempoBpm), reason: { code: 'plan-reason-reference', params: { week: 1 } } },
    };
    return [
      { ...envelope, id: sessionId, kind: 'session', body: session },
      { ...envelope, id: `b${k}`, kind: 'block', body: block },
    ];
  });
  return fold(records);
}

const thenNow = (diary: DiaryView): TakesCompared | undefined => comparisonsOf(diary).find(({ of }) => of === 'days');

test('then and now are the first and the last reference take at one tempo, with what changed for sure', () => {
  const later = addDays(START, 28);
  const compared = thenNow(
    diaryOf([
      { day: START, tempoBpm: 64, lastMs: -20 },
      { day: START, tempoBpm: 92, lastMs: -30 },
      { day: later, tempoBpm: 64, lastMs: -1 },
      { day: later, tempoBpm: 92, lastMs: -4 },
    ]),
  )!;
  expect(compared).toMatchObject({ thenDay: START, nowDay: later, tempoBpm: 92, perBeat: 4 });
  expect(compared.told.said.map(({ code }) => code)).toEqual(['progress-nearer-in-time']);
  expect(compared.told.places[5]!.biasMs).toMatchObject({ before: { value: -30 }, after: { value: -4 }, sure: true });
});

test('this week against last is the latest and the one nearest to a week before; it is offered where it is another pair', () => {
  const takes = [0, 7, 14, 20].map((days, k) => ({ day: addDays(START, days), tempoBpm: 92, lastMs: -30 + 8 * k }));
  expect(comparisonsOf(diaryOf(takes)).map(({ of, thenDay, nowDay }) => [of, thenDay, nowDay])).toEqual([
    ['days', START, addDays(START, 20)],
    ['week', addDays(START, 14), addDays(START, 20)],
  ]);
  expect(comparisonsOf(diaryOf(takes.slice(0, 2))).map(({ of }) => of)).toEqual(['days']);
});

test('pad against kit at the same tempo: what differs in these words, and no volumes (says: JOB.md, drums differ)', () => {
  const [drums] = comparisonsOf(
    diaryOf([
      { day: START, tempoBpm: 92, lastMs: -3, pad: true },
      { day: START, tempoBpm: 92, lastMs: -30 },
    ]),
  );
  expect(drums).toMatchObject({ of: 'drums', volumes: { said: [] } });
  expect(drums!.told.said.map((said) => say(said))).toEqual([
    'These takes were made with a different set-up (pad or drums); some of what changed may be that.',
    'Stroke 6 (kick) is further off in time: 3 ms early on the pad, 30 ms early on the kit.',
  ]);
  expect(drums!.told.rest.map(({ code }) => code)).toEqual(['progress-as-before']);
});

test('over several sittings at several tempi: from which on it shows (closed form: the last kick was early from 92 on)', () => {
  const takes = [72, 82, 92, 102].map((tempoBpm, k) => ({ day: addDays(START, 3 * k), tempoBpm, lastMs: tempoBpm >= 92 ? -25 : 0 }));
  expect(zonesOverDays(diaryOf(takes))!.zones.map((zone) => say(zone))).toEqual([
    'The second kick comes too close to the first from 16ths at 92 on; slower it holds.',
  ]);
  expect(zonesOverDays(diaryOf(takes.slice(0, 1)))).toBeNull();
});

test('of two phrases the one that was heard last is compared, though the other was faster (arithmetic: 64 of 64 and 92)', () => {
  const taken = (days: number, tempoBpm: number, pad: boolean) => ({ day: addDays(START, days), tempoBpm, lastMs: -10, pad });
  const compared = thenNow(diaryOf([taken(0, 92, true), taken(7, 92, true), taken(14, 64, false), taken(21, 64, false)]))!;
  expect([compared.tempoBpm, compared.thenDay, compared.nowDay]).toEqual([64, addDays(START, 14), addDays(START, 21)]);
});

test('one take, or takes at different tempi, are nothing to compare', () => {
  expect(thenNow(diaryOf([{ day: START, tempoBpm: 92, lastMs: -30 }]))).toBeUndefined();
  expect(
    thenNow(
      diaryOf([
        { day: START, tempoBpm: 92, lastMs: -30 },
        { day: addDays(START, 7), tempoBpm: 64, lastMs: -30 },
      ]),
    ),
  ).toBeUndefined();
});

test('nothing played: every family of the plan is missing, and nothing is there', () => {
  const readiness = readinessOfPlan(standing, [])!;
  expect(readiness.ready).toBe(false);
  expect(readiness.there).toEqual([]);
  const families = readiness.missing.filter(({ code }) => code === 'progress-family-not-tried');
  expect(families).toHaveLength(new Set(exercises.map(({ family }) => family)).size);
});

test('a kind that was taken out is no longer missing, the phrase in music always is; all ticked again is as if nothing was chosen (issue 7)', () => {
  const all = countingOf(standing);
  expect(all.every(({ counts }) => counts)).toBe(true);
  const without = { ...standing, plan: { ...plan, closing: closingWith(standing, { family: 'pad', counts: false })! } };
  const missing = readinessOfPlan(without, [])!.missing.flatMap((said) => (said.code === 'progress-family-not-tried' ? [said.params.family] : []));
  expect(missing).toEqual(all.map(({ family }) => family).filter((family) => family !== 'pad'));
  expect(missing).toContain('use');
  expect(countingOf(without).filter(({ counts }) => !counts)).toEqual([{ family: 'pad', counts: false }]);
  expect(countingOf(without)).toHaveLength(all.length);
  expect(closingWith(without, { family: 'pad', counts: true })).toBe(null);
});
