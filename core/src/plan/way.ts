/** Other honest ways of work than a tempo that follows results, as plain properties of the blocks of a session. */
import { UP_AND_BACK } from './parameters.ts';
import type { PlannedBlock, PlannedSession, Way } from './plan.ts';
import { wholeBpm } from './starttempo.ts';

export const WAYS: readonly Way[] = ['oneTempo', 'bursts', 'twoUpOneBack'];

/**
 * A session with one exercise worked on in another way. Minutes, order and everything but its work blocks stay.
 * @param way null for the usual way: the tempo follows results.
 * @param goalBpm the tempo wanted of the exercise, in its own beats.
 */
export function withWay(
  session: PlannedSession,
  exerciseId: string,
  { way, goalBpm }: { readonly way: Way | null; readonly goalBpm: number },
): PlannedSession {
  const turns = session.blocks.filter((block) => block.part === 'work' && block.exerciseId === exerciseId);
  const startBpm = turns[0]?.tempoBpm ?? goalBpm;
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
    case 'oneTempo':
      return { ...usual, way, aim: { code: 'plan-aim-sound', params: { tempoBpm: block.tempoBpm, perBeat } } };
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

/** A block that a teacher has capped: never faster, now or by results. Slower blocks only carry the cap. */
export function capped(block: PlannedBlock, capBpm: number): PlannedBlock {
  if (block.part === 'reference' || block.tempoBpm <= capBpm) return { ...block, capBpm };
  const tempoBpm = wholeBpm(capBpm);
  const aim = { ...block.aim, params: { ...block.aim.params, tempoBpm } } as PlannedBlock['aim'];
  return { ...block, capBpm, tempoBpm, aim, tempoReason: { code: 'plan-tempo-capped', params: { capBpm } } };
}
