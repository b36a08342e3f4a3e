/** The plan of the demo, made when it began and again from what its diary says. */
import { type DiaryRecord, fold, type KnownRecord } from '@evenhand/core/diary';
import { COMMON_TIME, contentId, type Exercise, type ExerciseContent, exercisesFor, readFocus } from '@evenhand/core/exercise';
import { DEFAULT_DRUMS } from '@evenhand/core/kit';
import { type KnownTempo, makePlan, type Plan, type PlanRequest, planAgain, refit } from '@evenhand/core/plan';
import { readSticking } from '@evenhand/core/sticking';
import { standsAt, type TempoResult } from '@evenhand/core/tempo';
import * as story from './scenario.ts';

/** Where the demo's plan stands. */
export interface DemoPlan {
  /** Sessions done stay as they were; those to come rest on what is known. */
  readonly plan: Plan;
  /** Every exercise that the plan names, best first, the phrase among them. */
  readonly exercises: readonly Exercise[];
}

/** What came of a block. */
export interface DayResult extends TempoResult {
  readonly day: string;
}

/** The plan as it stands on a day, from the diary alone, also after more was played. `records` hold at least one session. */
export function planNow(records: readonly DiaryRecord[], today: string, { request, moved }: { request: PlanRequest; moved: Plan }): DemoPlan {
  const days = [...fold(records).days].reverse().filter(({ sessions }) => sessions.length > 0);
  const done = days.map(({ day }) => day);
  const blocks = days.flatMap(({ sessions }) => sessions.flatMap((session) => session.blocks));
  const { plan } = planAgain(moved, { ...request, known: knownFrom(blocks) }, { done, today });
  return { plan, exercises: exercisesIn(plan, request) };
}

/** Every exercise that a plan names, best first. */
export function exercisesIn(plan: Plan, { exercises }: PlanRequest): readonly Exercise[] {
  const named = new Set(plan.sessions.flatMap(({ blocks }) => blocks.map(({ exerciseId }) => exerciseId)));
  return exercises.filter(({ id }) => named.has(id));
}

/** What the plan was asked for. @param start its first day. */
export function demoRequest(start: string): PlanRequest {
  const content = contentOfPhrase();
  const focus = readFocus(story.POINT.cell, readSticking(content.sticking).value!).value!;
  const { exercises } = exercisesFor(content, focus);
  const phrase = exercises.find(({ id }) => id === contentId(content))!;
  return {
    phrase,
    goalBpm: story.POINT.tempoBpm,
    exercises,
    known: [{ exerciseId: phrase.id, tempoBpm: story.FIRST_TEMPO_BPM, days: 1 }],
    weeks: story.WEEKS,
    days: story.DAYS_A_WEEK,
    minutes: story.MINUTES,
    start,
  };
}

/** The plan as it was made, and as it was followed: the missed session moved on. */
export function firstPlan(request: PlanRequest): { readonly planned: Plan; readonly moved: Plan } {
  const planned = makePlan(request).value!;
  return { planned, moved: refit(planned, { missed: [planned.sessions[story.MISSED_SESSION]!.date] }).plan };
}

/** Days from the first day of a plan to its n-th planned session, counted from 0: so many days a week, spread evenly as a plan does it. */
export const daysBefore = (session: number): number => Math.floor((session * 7) / story.DAYS_A_WEEK);

function contentOfPhrase(): ExerciseContent {
  const { strokes, text } = readSticking(story.POINT.sticking).value!;
  return { sticking: text, surfaces: strokes.map(({ limb }) => DEFAULT_DRUMS[limb]), perBeat: story.POINT.perBeat, meter: COMMON_TIME };
}

/** Where each exercise stands by what was heard; reference takes, whose tempo is fixed, say nothing of it. */
function knownFrom(blocks: readonly KnownRecord<'block'>[]): readonly KnownTempo[] {
  const results = new Map<string, readonly DayResult[]>();
  for (const { day, body } of blocks) {
    if (!body.heard || body.reason?.code === 'plan-reason-reference') continue;
    const result = { day, tempoBpm: body.tempoBpm, clean: body.heard.cleanRunCount, runs: body.heard.runCount };
    results.set(body.exercise.id, [...(results.get(body.exercise.id) ?? []), result]);
  }
  return [...results].map(([exerciseId, all]) => ({
    exerciseId,
    tempoBpm: standsAt(all).nextTempoBpm,
    days: new Set(all.map(({ day }) => day)).size,
  }));
}
