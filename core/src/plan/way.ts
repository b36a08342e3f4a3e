/** Other honest ways of work than a tempo that follows results, as plain properties of the blocks of a session. */
import type { Exercise } from '../exercise/index.ts';
import { STUCK_DAYS, UP_AND_BACK } from './parameters.ts';
import type { Cap, ChosenClick, ChosenWay, PlannedBlock, PlannedSession, PlanRequest, Way } from './plan.ts';
import { goalOf, startTempo, wholeBpm } from './starttempo.ts';

export const WAYS: readonly Way[] = ['oneTempo', 'bursts', 'twoUpOneBack'];

/**
 * A session with one exercise worked on in another way. Minutes, order and everything but its work blocks stay.
 * @param way null for the usual way: the tempo follows results.
 * @param goalBpm the tempo wanted of the exercise, in its own beats.
 * @param tempoBpm where `oneTempo` stays and the other ways begin; unless said, where the session begins.
 */
export function withWay(
  session: PlannedSession,
  exerciseId: string,
  { way, goalBpm, tempoBpm }: { readonly way: Way | null; readonly goalBpm: number; readonly tempoBpm?: number | undefined },
): PlannedSession {
  const turns = session.blocks.filter((block) => block.part === 'work' && block.exerciseId === exerciseId);
  const startBpm = tempoBpm ?? turns[0]?.tempoBpm ?? goalBpm;
  const blocks = session.blocks.map((block) => {
    const turn = turns.indexOf(block);
    return turn < 0 ? block : inWay(block, way, { turn, startBpm, goalBpm, last: turn === turns.length - 1 });
  });
  return { ...session, blocks };
}

interface Turn {
  /** Which of the day's turns of this exercise, from 0. */
  readonly turn: number;
  readonly startBpm: number;
  readonly goalBpm: number;
  readonly last: boolean;
}

function inWay(block: PlannedBlock, way: Way | null, { turn, startBpm, goalBpm, last }: Turn): PlannedBlock {
  const { way: _before, ...usual } = block;
  const { perBeat } = block.aim.params;
  switch (way) {
    case null:
      return usual;
    case 'oneTempo': {
      const aim = { code: 'plan-aim-sound', params: { tempoBpm: startBpm, perBeat } } as const;
      const tempoReason = startBpm === block.tempoBpm ? usual.tempoReason : ({ code: 'plan-tempo-stays', params: {} } as const);
      return { ...usual, way, tempoBpm: startBpm, aim, tempoReason };
    }
    case 'bursts': {
      // One turn of the day: the others keep the tempo that holds.
      if (!last) return usual;
      const tempoBpm = wholeBpm(goalBpm);
      const aim = { code: 'plan-aim-bursts', params: { tempoBpm, perBeat } } as const;
      return { ...usual, way, tempoBpm, aim, tempoReason: { code: 'plan-tempo-bursts', params: {} } };
    }
    case 'twoUpOneBack': {
      const tempoBpm = wholeBpm(Math.min(goalBpm, startBpm * (1 + UP_AND_BACK.stepShare * UP_AND_BACK.steps[turn % UP_AND_BACK.steps.length]!)));
      const aim = { code: 'plan-aim-clean', params: { tempoBpm, perBeat, goalBpm: wholeBpm(goalBpm) } } as const;
      return { ...usual, way, tempoBpm, aim, tempoReason: { code: 'plan-tempo-up-and-back', params: {} } };
    }
  }
}

/** Whether what was agreed for an exercise holds on a day. */
const holdsOn = ({ until }: Cap | ChosenWay | ChosenClick, date: string): boolean => until === undefined || date <= until;

/** A session with every way that the player chose for its day. A turn of bursts says that it was asked for. */
export function withChosenWays(session: PlannedSession, request: PlanRequest): PlannedSession {
  const chosen = (request.ways ?? []).filter((each) => holdsOn(each, session.date));
  return chosen.reduce((so, { exerciseId, way, tempoBpm }) => {
    const exercise = exerciseOf(request, exerciseId);
    if (!exercise) return so;
    const worked = withWay(so, exerciseId, { way, goalBpm: goalOf(exercise, request), tempoBpm });
    return { ...worked, blocks: worked.blocks.map((block) => (isBurst(block, exerciseId) ? { ...block, reason: ASKED } : block)) };
  }, session);
}

/** Days for which the phrase has not become faster, when they are enough for bursts; null otherwise, when it is there, capped, or worked on in a way that was chosen. */
export function stuckOn(request: PlanRequest, date: string): number | null {
  const { phrase, goalBpm, known, caps = [], ways = [] } = request;
  const days = known?.find(({ exerciseId }) => exerciseId === phrase.id)?.stuckDays ?? 0;
  const agreed = [...caps, ...ways].some((each) => each.exerciseId === phrase.id && holdsOn(each, date));
  return days < STUCK_DAYS || agreed || startTempo(phrase, request).tempoBpm >= wholeBpm(goalBpm) ? null : days;
}

/** Exercises that are worked on in another way on a day, the phrase first where it is stuck: they are worth a turn. */
export function askedFor(request: PlanRequest, date: string): readonly Exercise[] {
  const chosen = (request.ways ?? []).filter((each) => holdsOn(each, date)).flatMap(({ exerciseId }) => exerciseOf(request, exerciseId) ?? []);
  return stuckOn(request, date) === null ? chosen : [request.phrase, ...chosen];
}

const ASKED = { code: 'plan-reason-bursts', params: {} } as const;
const isBurst = (block: PlannedBlock, exerciseId: string): boolean => block.way === 'bursts' && block.exerciseId === exerciseId;

const exerciseOf = ({ phrase, exercises }: PlanRequest, id: string): Exercise | undefined => [phrase, ...exercises].find((one) => one.id === id);

/** A session with every cap that holds on its day. */
export const withCaps = (session: PlannedSession, { caps = [] }: Pick<PlanRequest, 'caps'>): PlannedSession => ({
  ...session,
  blocks: session.blocks.map((block) => {
    const holding = caps.filter((each) => each.exerciseId === block.exerciseId && holdsOn(each, session.date));
    return holding.length > 0 ? capped(block, Math.min(...holding.map(({ tempoBpm }) => tempoBpm))) : block;
  }),
});

/** A session with the click of its exercises as it was chosen for its day. Warm-ups and reference takes are clicked on every beat: these are compared. */
export const withClicks = (session: PlannedSession, { clicks = [] }: Pick<PlanRequest, 'clicks'>): PlannedSession => ({
  ...session,
  blocks: session.blocks.map((block) => {
    const chosen = clicks.filter((each) => each.exerciseId === block.exerciseId && holdsOn(each, session.date)).at(-1);
    if (!chosen || block.part === 'warmUp' || block.part === 'reference') return block;
    const { click, fewerClicks } = chosen;
    return { ...block, ...(click ? { click } : {}), ...(fewerClicks ? { fewerClicks } : {}) };
  }),
});

/** A block that is capped: never faster, now or by results. Slower blocks only carry the cap. */
export function capped(block: PlannedBlock, capBpm: number): PlannedBlock {
  if (block.part === 'reference' || block.tempoBpm <= capBpm) return { ...block, capBpm };
  const tempoBpm = wholeBpm(capBpm);
  const aim = { ...block.aim, params: { ...block.aim.params, tempoBpm } } as PlannedBlock['aim'];
  return { ...block, capBpm, tempoBpm, aim, tempoReason: { code: 'plan-tempo-capped', params: { capBpm } } };
}
