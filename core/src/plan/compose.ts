/** A session from what was chosen for it: blocks in order, each with tempo, aim and reason. */
import type { Exercise, Family } from '../exercise/index.ts';
import type { Pick as Chosen } from './choose.ts';
import { type SharedMinutes, toQuarters } from './minutes.ts';
import { LEAST_OWN_MINUTES } from './parameters.ts';
import type { OwnBlock, PlannedBlock, PlannedSession, PlanRequest } from './plan.ts';
import type { PlanAim } from './said.ts';
import { goalOf, referenceTempo, type StartTempo, startTempo, warmUpTempo, wholeBpm } from './starttempo.ts';
import { holdsPhrase } from './twins.ts';
import { stuckOn, withCaps, withChosenWays, withClicks, withWay } from './way.ts';

/** What a session is composed of. */
export interface Ingredients {
  readonly date: string;
  readonly shared: SharedMinutes;
  /** At least one. */
  readonly picks: readonly Chosen[];
  /** Week from 1, for the reference takes. */
  readonly week: number;
}

/** Warm-up, reference takes when they are due, work in turns, the player's own music, the phrase at the end. */
export function composeSession(request: PlanRequest, { date, shared, picks, week }: Ingredients): PlannedSession {
  const planned = [
    warmUpBlock(request, picks, shared.warmUp),
    ...shared.references.map((minutes, take) => referenceBlock(request, minutes, { take, count: shared.references.length, week })),
    ...inTurn(picks, shared.work.length).map((pick, k) => workBlock(request, pick, shared.work[k]!)),
    ...repertoireOf(request).map(repertoireBlock),
    lastBlock(request, picks, shared.use),
  ];
  const session = { date, minutes: planned.reduce((sum, { minutes }) => sum + minutes, 0), blocks: planned };
  return withClicks(withCaps(whenStuck(request, withChosenWays(session, request)), request), request);
}

/** The player's own pieces, each with its minutes. */
export const repertoireOf = ({ own = [] }: Pick<PlanRequest, 'own'>): readonly (OwnBlock & { readonly minutes: number })[] =>
  own.filter(({ as }) => as === 'repertoire').map((block) => ({ ...block, minutes: Math.max(LEAST_OWN_MINUTES, toQuarters(block.minutes ?? 0)) }));

function repertoireBlock({ exercise, tempoBpm, minutes }: OwnBlock & { readonly minutes: number }): PlannedBlock {
  const start: StartTempo = { tempoBpm: wholeBpm(tempoBpm), why: { code: 'plan-tempo-own', params: {} } };
  const aim = aimAt('plan-aim-own', exercise, start);
  return { ...block(exercise, { part: 'use', minutes, start, aim, reason: { code: 'plan-reason-repertoire', params: {} } }), way: 'oneTempo' };
}

/** One turn of the phrase in bursts at the tempo wanted when it has not become faster for some days. */
function whenStuck(request: PlanRequest, session: PlannedSession): PlannedSession {
  const days = stuckOn(request, session.date);
  if (days === null) return session;
  const { phrase, goalBpm } = request;
  const { blocks, ...rest } = withWay(session, phrase.id, { way: 'bursts', goalBpm });
  const reason = { code: 'plan-reason-stuck', params: { days } } as const;
  return { ...rest, blocks: blocks.map((each) => (each.way === 'bursts' && each.exerciseId === phrase.id ? { ...each, reason } : each)) };
}

/**
 * Picks in the order of the blocks: one that is new has two blocks in a row, the rest alternate.
 * `inTurn([A, B], 3)` is A B A; with A new A A B.
 */
function inTurn(picks: readonly Chosen[], count: number): readonly Chosen[] {
  const [first, ...others] = picks;
  if (!first?.inARow || others.length === 0) return Array.from({ length: count }, (_, k) => picks[k % picks.length]!);
  const inARow = Math.max(1, Math.min(2, count - 1));
  const after = [...others, ...(others.length === 1 ? [first] : [])];
  return Array.from({ length: count }, (_, k) => (k < inARow ? first : after[(k - inARow) % after.length]!));
}

/** The player's own warm-up, else the simplest of the day that is not new, else the phrase: either of these slow. */
function warmUpBlock(request: PlanRequest, picks: readonly Chosen[], minutes: number): PlannedBlock {
  const own = request.own?.find(({ as }) => as === 'warmUp');
  if (own) {
    const start: StartTempo = { tempoBpm: wholeBpm(own.tempoBpm), why: { code: 'plan-tempo-own', params: {} } };
    const aim = aimAt('plan-aim-warm-up', own.exercise, start);
    return block(own.exercise, { part: 'warmUp', minutes, start, aim, reason: { code: 'plan-reason-own-warm-up', params: {} } });
  }
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

function workBlock(request: PlanRequest, { exercise, reason, inARow }: Chosen, minutes: number): PlannedBlock {
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
function lastBlock(request: PlanRequest, picks: readonly Chosen[], minutes: number): PlannedBlock {
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
