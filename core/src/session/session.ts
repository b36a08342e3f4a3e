/** The session as a pure state machine: what happens goes in, what is to be done comes out. It makes no sound and reads no clock. */
import { frameOfSec } from '../units.ts';
import {
  type Asked,
  clicksEffect,
  cutInTwo,
  followed,
  heldAt,
  laidFrom,
  laidOutBy,
  nextBarLine,
  presentAsked,
  roundStartAt,
  waitsToBegin,
  withPresent,
  withRepeat,
} from './again.ts';
import { barFrame, endFrameOf } from './beats.ts';
import { layoutBlock, type SessionBlock } from './block.ts';
import { clicksOf } from './click.ts';
import { glanced, roundOver, takenBack } from './follow.ts';
import { keep } from './kept.ts';
import { LISTEN_LIMIT_SEC, START_LEAD_SEC, TAKE_TAIL_SEC } from './parameters.ts';
import { barAt, exerciseSpans, roundOf } from './round.ts';
import { lastRound, outcomeOf, turned, withWord } from './saying.ts';
import { slotOf } from './slot.ts';
import type { BlockOutcome, BlockRun, Heard, OwnWord, SessionEvent, SessionState, SessionStep } from './state.ts';
import { andThen, still } from './step.ts';
import { settleTake } from './takeahead.ts';

/**
 * One event, after all that came to pass before its frame, however late it is told. Events that mean nothing in the present phase change nothing.
 * @returns the new state and what the app is to do, in order.
 */
export function stepSession(state: SessionState, event: SessionEvent): SessionStep {
  const now = { ...state, lastFrame: Math.max(state.lastFrame, event.frame) };
  const reacted = andThen(advance(now, event.frame), (s) => react(s, event));
  return andThen(reacted, settleTake);
}

function react(now: SessionState, event: SessionEvent): SessionStep {
  switch (event.kind) {
    case 'start':
      return now.phase === 'ready' ? start(now, event.frame) : still(now);
    case 'tick':
      return still(now);
    case 'pause':
      return pause(now, event.frame);
    case 'resume':
      return now.phase === 'paused' ? resume(now, event.frame) : still(now);
    case 'skip':
      return skip(now, event.frame);
    case 'stop':
      return stop(now, event.frame);
    case 'hurts':
      return hurts(now, event.frame);
    case 'dontCount':
      return dontCount(now, event.frame);
    case 'hadIt':
    case 'again':
      return say(now, event.frame, event.kind);
    case 'repeat':
      return repeat(now, event.frame);
    case 'slower':
    case 'faster':
      return retempo(now, event.frame, event.kind);
    case 'tempo':
      return retempo(now, event.frame, event.tempoBpm);
    case 'goOn':
      return goOn(now, event.frame);
    case 'keep':
      return keep(now, event.frame);
    case 'glanced':
      return glanced(now, event);
    case 'measured':
      return measured(now, event.block, event.heard);
  }
}

const isRunning = (state: SessionState): boolean => state.phase === 'breather' || state.phase === 'playing' || state.phase === 'paused';

function start(state: SessionState, frame: number): SessionStep {
  return enterBlock({ ...state, originFrame: frame + frameOfSec(START_LEAD_SEC, state.sampleRateHz) }, 0);
}

function enterBlock(state: SessionState, index: number): SessionStep {
  const block = state.blocks[index];
  if (!block) return endWhenHeard({ ...state, phase: 'listening', layout: null, runs: [] });
  const layout = layoutBlock(block, slotOf(state, index), { sampleRateHz: state.sampleRateHz, first: index === 0 || block.joined === true });
  return {
    state: { ...state, phase: 'breather', block: index, layout, runs: [], takeOpen: null, pausedAtFrame: null, roundsAsked: 0 },
    effects: [
      { kind: 'show', block: index },
      { kind: 'clicks', clicks: clicksOf(layout) },
    ],
  };
}

/** Goes through every boundary that the frame has passed, however late the tick came. */
function advance(state: SessionState, frame: number): SessionStep {
  const { layout } = state;
  if (state.phase === 'breather' && layout && frame >= layout.startFrame) return andThen(begin(state), (s) => advance(s, frame));
  const span = state.phase === 'playing' ? roundOver(state, frame) : null;
  if (span) {
    const asked = { ...state, roundsAsked: span.round + 1 };
    return andThen({ state: asked, effects: [{ kind: 'glance', span }] }, (s) => advance(s, frame));
  }
  const tail = frameOfSec(TAKE_TAIL_SEC, state.sampleRateHz);
  if (state.phase === 'playing' && layout && frame >= endFrameOf(layout) + tail) {
    return andThen(closeBlock(state, 'full', endFrameOf(layout)), (s) => andThen(enterBlock(s, s.block + 1), (t) => advance(t, frame)));
  }
  if (state.phase === 'listening' && frame >= state.listenUntilFrame) return end(state);
  return still(state);
}

/** The count-in begins, and with it the take that was asked for while the block waited. */
const begin = (state: SessionState): SessionStep =>
  andThen(settleTake(state), (s) => still({ ...s, phase: 'playing', takeOpen: s.takeAsked?.take ?? null }));

function closeRun(state: SessionState, untilFrame: number): SessionStep {
  if (!state.takeOpen || !state.layout) return still(state);
  const run: BlockRun = { take: state.takeOpen, layout: state.layout, untilFrame };
  const atFrame = untilFrame + frameOfSec(TAKE_TAIL_SEC, state.sampleRateHz);
  return {
    state: { ...state, takeAsked: null, takeOpen: null, runs: [...state.runs, run] },
    effects: [{ kind: 'closeTake', take: run.take, atFrame }],
  };
}

function closeBlock(state: SessionState, ended: BlockOutcome['ended'], frame: number): SessionStep {
  return andThen(closeRun(state, frame), (s) => {
    // Left before its count-in: there is nothing to tell of it.
    if (s.runs.length === 0) return still(s);
    const outcome = outcomeOf(s, ended);
    const spans = s.runs.flatMap((run) => exerciseSpans(run.layout, { take: run.take, block: s.block, untilFrame: run.untilFrame }));
    const previousRun = { block: s.block, run: s.runs.at(-1)! };
    return askForMeasurement({ ...s, outcomes: [...s.outcomes, outcome], previousSpans: spans, previousRun }, s.block);
  });
}

/** Asks for the last block without the rounds that do not count; with none left, or nobody to judge, the block is written as it is. */
function askForMeasurement(state: SessionState, block: number): SessionStep {
  const spans = state.previousSpans.filter((span) => !state.uncounted.some((un) => un.block === block && un.round === span.round));
  if (spans.length === 0 || state.blocks[block]?.judgedBy === 'nobody') return writeBlock(state, block);
  const awaited = [...state.awaited.filter((b) => b !== block), block];
  return { state: { ...state, awaited }, effects: [{ kind: 'measure', block, spans }] };
}

function writeBlock(state: SessionState, block: number): SessionStep {
  const outcome = state.outcomes.find((o) => o.block === block);
  return { state, effects: outcome ? [{ kind: 'writeBlock', outcome }] : [] };
}

function endWhenHeard(state: SessionState): SessionStep {
  if (state.awaited.length === 0) return end(state);
  return still({ ...state, listenUntilFrame: state.lastFrame + frameOfSec(LISTEN_LIMIT_SEC, state.sampleRateHz) });
}

/** Ends now; a block whose measurement is still out is written without it, and again when it comes. */
function end(state: SessionState): SessionStep {
  const { outcomes, hurt } = state;
  const summary = {
    playedSec: outcomes.reduce((sum, outcome) => sum + outcome.playedSec, 0),
    hurt,
    stoppedEarly: state.stopped,
    outcomes,
  };
  const unheard = state.awaited.flatMap((block) => writeBlock(state, block).effects);
  return { state: { ...state, phase: 'ended', layout: null, awaited: [] }, effects: [...unheard, { kind: 'writeSession', summary }] };
}

const silence = (state: SessionState, frame: number): SessionStep => ({ state, effects: [{ kind: 'cancelClicks', fromFrame: frame }] });

function pause(state: SessionState, frame: number): SessionStep {
  if (state.phase !== 'breather' && state.phase !== 'playing') return still(state);
  return andThen(silence(state, frame), (s) => andThen(closeRun(s, frame), (t) => still({ ...t, phase: 'paused', pausedAtFrame: frame })));
}

/** Begins again at the bar that was cut; the time away moves the rest of the session. */
function resume(state: SessionState, frame: number): SessionStep {
  const old = state.layout!;
  return beginAt(state, frame, Math.min(old.barCount - 1, barAt(old, state.pausedAtFrame ?? frame)));
}

function beginAt(state: SessionState, frame: number, bar: number): SessionStep {
  const laid = laidFrom(state, frame, bar);
  return { state: { ...laid.state, phase: 'breather', layout: laid.layout, pausedAtFrame: null }, effects: [clicksEffect(laid.layout)] };
}

/** Once more. */
function repeat(state: SessionState, frame: number): SessionStep {
  if (waitsToBegin(state)) {
    const repeated = withRepeat(state);
    return repeated ? andThen(silence(repeated, frame), (s) => enterBlock(s, s.block)) : still(state);
  }
  if (!isRunning(state) || !state.layout) return still(state);
  const bar = roundStartAt(state.layout, state.pausedAtFrame ?? frame);
  const { round } = roundOf(state.layout, bar);
  return andThen(silence(state, frame), (s) => andThen(closeRun(s, frame), (t) => beginAt({ ...t, roundsAsked: round }, frame, bar)));
}

/** Another tempo: for a block that waits at once, for one that runs from the next bar line on. */
function retempo(state: SessionState, frame: number, asked: Asked): SessionStep {
  const tempoBpm = presentAsked(state, frame, asked);
  if (tempoBpm === null || !state.layout) return still(state);
  if (waitsToBegin(state)) return relaid(withPresent(state, heldAt(state, { tempoBpm, asked })), frame);
  const atFrame = state.phase === 'playing' ? nextBarLine(state.layout, frame) : null;
  if (atFrame === null) return still(state);
  const cut = cutInTwo(state, { slotFrom: slotOf(state, state.block).fromFrame, atFrame, ...heldAt(state, { tempoBpm, asked }) });
  return andThen(silence(cut, atFrame), (s) => andThen(closeBlock(s, 'full', atFrame), (t) => enterBlock(t, t.block + 1)));
}

/** The block that waits, laid out as it is now; a pause stays a pause. */
function relaid(state: SessionState, frame: number): SessionStep {
  const entered = andThen(silence(state, frame), (s) => enterBlock(s, s.block));
  if (state.phase !== 'paused') return entered;
  const silent = { ...entered.state, phase: 'paused', pausedAtFrame: state.pausedAtFrame } as const;
  return { state: silent, effects: entered.effects.filter(({ kind }) => kind !== 'clicks') };
}

/** The count-in of the block that waits begins now, and the session ends that much earlier. */
function goOn(state: SessionState, frame: number): SessionStep {
  const { layout } = state;
  if (state.phase !== 'breather' || !layout || frame + frameOfSec(START_LEAD_SEC, state.sampleRateHz) >= layout.startFrame) return still(state);
  return andThen(silence(state, frame), (s) => beginAt(s, frame, layout.firstBar));
}

/** Leaves the block now; the next begins now and the session ends that much earlier. */
function skip(state: SessionState, frame: number): SessionStep {
  if (!isRunning(state)) return still(state);
  const originFrame = state.originFrame + frame - slotOf(state, state.block).toFrame;
  return andThen(silence({ ...state, originFrame }, frame), (s) => andThen(closeBlock(s, 'skipped', frame), (t) => enterBlock(t, t.block + 1)));
}

function stop(state: SessionState, frame: number): SessionStep {
  if (state.phase === 'ready') return end({ ...state, stopped: true });
  if (state.phase === 'listening') return end(state);
  if (!isRunning(state)) return still(state);
  const closed = andThen(silence({ ...state, stopped: true }, frame), (s) => closeBlock(s, 'stopped', frame));
  return andThen(closed, (s) => endWhenHeard({ ...s, phase: 'listening', layout: null }));
}

/** Stops at once, keeps the take, asks the ear nothing and says so in the summary. */
function hurts(state: SessionState, frame: number): SessionStep {
  if (state.phase === 'ended') return still(state);
  const hurt = { ...state, hurt: true, stopped: true };
  if (!isRunning(state)) return end(hurt);
  return andThen(silence(hurt, frame), (s) => andThen(closeRun(s, frame), (t) => (t.runs.length === 0 ? end(t) : andThen(noteStopped(t), end))));
}

const noteStopped = (state: SessionState): SessionStep =>
  writeBlock({ ...state, outcomes: [...state.outcomes, outcomeOf(state, 'stopped')] }, state.block);

/** Takes the round in progress, or the one just played, out of what is judged; said again, back in. */
function dontCount(state: SessionState, frame: number): SessionStep {
  if (state.phase === 'playing' && state.layout && frame >= barFrame(state.layout, state.layout.firstBar)) {
    const bar = Math.min(state.layout.barCount - 1, barAt(state.layout, frame));
    const { round } = roundOf(state.layout, bar);
    return takenBack({ ...state, uncounted: turned(state.uncounted, { block: state.block, round }) }, frame, round);
  }
  const last = state.previousSpans.at(-1);
  if (!last || state.phase === 'ended' || state.phase === 'ready') return still(state);
  return askForMeasurement({ ...state, uncounted: turned(state.uncounted, { block: last.block, round: last.round }) }, last.block);
}

/** Keeps the player's word for the last round that was played; one that comes after its block changes what was written of it. */
function say(state: SessionState, frame: number, says: OwnWord): SessionStep {
  const round = lastRound(state, frame);
  if (!round || state.blocks[round.block]?.judgedBy === 'nobody') return still(state);
  const said = withWord(state, { ...round, says });
  const written = said.outcomes.some(({ block }) => block === round.block);
  return written ? askForMeasurement(said, round.block) : still(said);
}

function measured(state: SessionState, block: number, heard: Heard | null): SessionStep {
  const outcomes = state.outcomes.map((outcome) => (outcome.block === block ? { ...outcome, heard } : outcome));
  const awaited = state.awaited.filter((b) => b !== block);
  const kept = writeBlock({ ...state, outcomes, awaited }, block);
  const moved = andThen(kept, (s) => (heard ? moveTempo(s, block, heard) : still(s)));
  return andThen(moved, (s) => (s.phase === 'listening' ? endWhenHeard(s) : still(s)));
}

/** Blocks of the same exercise that are still to come take the new tempo; one that waits for its count-in is laid out anew. */
function moveTempo(state: SessionState, measuredBlock: number, heard: Heard): SessionStep {
  const { exercise, fixedTempo } = state.blocks[measuredBlock]!;
  if (fixedTempo) return still(state);
  const moves = (block: SessionBlock) => block.exercise.id === exercise.id && !block.fixedTempo && block.judgedBy !== 'nobody';
  const begun = state.phase === 'breather' && state.runs.length === 0 ? state.block : state.block + 1;
  const blocks = state.blocks.map((block, i) => (i >= begun && moves(block) ? followed(block, heard) : block));
  const moved = { ...state, blocks };
  const waits = begun === state.block && state.layout && laidOutBy(blocks[begun]) !== laidOutBy(state.blocks[begun]);
  return waits ? andThen(silence(moved, state.lastFrame), (s) => enterBlock(s, s.block)) : still(moved);
}
