/** The player's own word for a round, and what is told of a block with it. */
import { secOfFrames } from '../units.ts';
import { barFrame, endFrameOf } from './beats.ts';
import { stretchesOf } from './follow.ts';
import { barAt, roundOf } from './round.ts';
import type { BlockOutcome, OwnWord, RoundsSaid, SaidRound, SessionState, UncountedRound } from './state.ts';

/**
 * The round that a word at `frame` speaks of: the last whose bars of exercise are over, or in their last bar; between blocks the last one
 * of the block before. Null while there is none.
 */
export function lastRound(state: SessionState, frame: number): Omit<SaidRound, 'says'> | null {
  const { layout, previousSpans } = state;
  if (state.phase === 'ended' || state.phase === 'ready') return null;
  const before = previousSpans.at(-1);
  const earlier = before ? { block: before.block, round: before.round } : null;
  if (state.phase === 'listening' || !layout) return earlier;
  const now = state.pausedAtFrame ?? frame;
  const bar = barAt(layout, now);
  const { round, barOfRound, plain } = roundOf(layout, bar);
  const lastBar = now >= barFrame(layout, layout.firstBar) && (barOfRound >= layout.roundBars - 1 || bar >= layout.barCount - 1);
  if (plain || lastBar) return { block: state.block, round };
  return round > 0 ? { block: state.block, round: round - 1 } : earlier;
}

/** The state with a word; a second word for a round takes the place of the first. */
export function withWord(state: SessionState, word: SaidRound): SessionState {
  const said = [...state.said.filter(({ block, round }) => block !== word.block || round !== word.round), word];
  const outcomes = state.outcomes.map((outcome) => (outcome.block === word.block ? { ...outcome, rounds: roundsOf(said, word.block) } : outcome));
  return { ...state, said, outcomes };
}

/** Rounds that do not count, with one more; or without it, when it is among them. */
export function turned(uncounted: readonly UncountedRound[], { block, round }: UncountedRound): readonly UncountedRound[] {
  const others = uncounted.filter((one) => one.block !== block || one.round !== round);
  return others.length < uncounted.length ? others : [...uncounted, { block, round }];
}

/** What became of the present block, before anybody judged it. */
export function outcomeOf(state: SessionState, ended: BlockOutcome['ended']): BlockOutcome {
  const block = state.blocks[state.block]!;
  const frames = state.runs.reduce((sum, run) => sum + Math.max(0, run.untilFrame - run.layout.startFrame), 0);
  return {
    block: state.block,
    exerciseId: block.exercise.id,
    tempoBpm: block.tempoBpm,
    minutesPlanned: block.minutes,
    playedSec: secOfFrames(frames, state.sampleRateHz),
    ended,
    rounds: roundsOf(state.said, state.block),
    heard: null,
    glanced: stretchesOf(state),
  };
}

/**
 * The present block as far as it was played, to its last bar line: what stays when the session is cut off now. Null while no bar of it was played,
 * and when it is over.
 */
export function outcomeSoFar(state: SessionState): BlockOutcome | null {
  const { layout, takeOpen, lastFrame } = state;
  if (state.phase !== 'playing' && state.phase !== 'paused') return null;
  if (!takeOpen || !layout) return state.runs.length === 0 ? null : outcomeOf(state, 'stopped');
  const untilFrame = Math.min(endFrameOf(layout), barFrame(layout, barAt(layout, lastFrame)));
  const played = untilFrame > barFrame(layout, layout.firstBar);
  const runs = played ? [...state.runs, { take: takeOpen, layout, untilFrame }] : state.runs;
  return runs.length === 0 ? null : outcomeOf({ ...state, runs }, 'stopped');
}

/** Bars of the present block that lie behind the player; 0 while none runs. */
export function barsPlayed({ phase, layout, lastFrame }: SessionState): number {
  return phase === 'playing' && layout ? Math.min(layout.barCount, barAt(layout, lastFrame)) : 0;
}

function roundsOf(said: readonly SaidRound[], block: number): RoundsSaid {
  const count = (word: OwnWord) => said.filter((one) => one.block === block && one.says === word).length;
  return { hadIt: count('hadIt'), again: count('again') };
}
