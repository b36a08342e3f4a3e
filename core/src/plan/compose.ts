/** A session from what was chosen for it: blocks in order, each with tempo, aim and reason. */
import type { Exercise, Family } from '../exercise/index.ts';
import type { Pick } from './choose.ts';
import type { SharedMinutes } from './minutes.ts';
import type { PlannedBlock, PlannedSession, PlanRequest } from './plan.ts';
import type { PlanAim } from './said.ts';
import { goalOf, referenceTempo, type StartTempo, startTempo, warmUpTempo, wholeBpm } from './starttempo.ts';
import { holdsPhrase } from './twins.ts';

/** What a session is composed of. */
export interface Ingredients {
  readonly date: string;
  readonly shared: SharedMinutes;
  /** At least one. */
  readonly picks: readonly Pick[];
  /** Week from 1, for the reference takes. */
  readonly week: number;
}

/** Warm-up, reference takes when they are due, work in turns, the phrase at the end. */
export function composeSession(request: PlanRequest, { date, shared, picks, week }: Ingredients): PlannedSession {
  const blocks = [
    warmUpBlock(request, picks, shared.warmUp),
    ...shared.references.map((minutes, take) => referenceBlock(request, minutes, { take, count: shared.references.length, week })),
    ...inTurn(picks, shared.work.length).map((pick, k) => workBlock(request, pick, shared.work[k]!)),
    lastBlock(request, picks, shared.use),
  ];
  return { date, minutes: blocks.reduce((sum, { minutes }) => sum + minutes, 0), blocks };
}

/**
 * Picks in the order of the blocks: one that is new has two blocks in a row, the rest alternate.
 * `inTurn([A, B], 3)` is A B A; with A new A A B.
 */
function inTurn(picks: readonly Pick[], count: number): readonly Pick[] {
  const [first, ...others] = picks;
  if (!first?.inARow || others.length === 0) return Array.from({ length: count }, (_, k) => picks[k % picks.length]!);
  const inARow = Math.max(1, Math.min(2, count - 1));
  const after = [...others, ...(others.length === 1 ? [first] : [])];
  return Array.from({ length: count }, (_, k) => (k < inARow ? first : after[(k - inARow) % after.length]!));
}

/** The warm-up is the simplest of the day that is not new, else the phrase: either way slow. */
function warmUpBlock(request: PlanRequest, picks: readonly Pick[], minutes: number): PlannedBlock {
  const exercise = picks.find((pick) => !pick.inARow && SIMPLE.includes(pick.exercise.family))?.exercise ?? request.phrase;
  const start = warmUpTempo(exercise, request);
  const aim = aimAt('plan-aim-warm-up', exercise, start);
  return block(exercise, { part: 'warmUp', minutes, start, aim, reason: { code: 'plan-reason-warm-up', params: {} } });
}

function referenceBlock(
  request: PlanRequest,
  minutes: number,
  { take, count, week }: { readonly take: number; readonly count: number; readonly week: number },
): PlannedBlock {
  const start = referenceTempo(take, count, request);
  const aim = aimAt('plan-aim-reference', request.phrase, start);
  return block(request.phrase, { part: 'reference', minutes, start, aim, reason: { code: 'plan-reason-reference', params: { week } } });
}

function workBlock(request: PlanRequest, { exercise, reason, inARow }: Pick, minutes: number): PlannedBlock {
  const start = startTempo(exercise, request);
  return block(exercise, {
    part: 'work',
    minutes,
    start,
    aim: inARow ? aimAt('plan-aim-learn', exercise, start) : cleanAim(request, exercise, start),
    reason,
  });
}

function cleanAim(request: PlanRequest, exercise: Exercise, { tempoBpm }: StartTempo): PlanAim {
  return { code: 'plan-aim-clean', params: { tempoBpm, perBeat: exercise.perBeat, goalBpm: wholeBpm(goalOf(exercise, request)) } };
}

/** The day ends on the phrase, in music when the day has an exercise of that kind that holds it. @source [Allen2013] a similar melody afterwards costs what the night would give. */
function lastBlock(request: PlanRequest, picks: readonly Pick[], minutes: number): PlannedBlock {
  const inMusic = picks.find(({ exercise }) => exercise.family === 'use' && holdsPhrase(exercise, request.phrase))?.exercise;
  const exercise = inMusic ?? request.phrase;
  const start = startTempo(exercise, request);
  const reason = { code: inMusic ? 'plan-reason-ends-in-music' : 'plan-reason-ends', params: {} } as const;
  return block(exercise, { part: 'use', minutes, start, aim: aimAt('plan-aim-phrase', exercise, start), reason });
}

/** Families that hands can warm up with. */
const SIMPLE: readonly Family[] = ['pad', 'rudiment'];

const aimAt = <Code extends Exclude<PlanAim['code'], 'plan-aim-clean'>>(code: Code, { perBeat }: Exercise, { tempoBpm }: StartTempo) => ({
  code,
  params: { tempoBpm, perBeat },
});

type Made = Omit<PlannedBlock, 'exerciseId' | 'tempoBpm' | 'tempoReason'> & { readonly start: StartTempo };

const block = (exercise: Exercise, { part, minutes, start, aim, reason }: Made): PlannedBlock => ({
  exerciseId: exercise.id,
  part,
  minutes,
  tempoBpm: start.tempoBpm,
  aim,
  reason,
  tempoReason: start.why,
});
