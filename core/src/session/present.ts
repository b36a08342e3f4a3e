/** What stands under the player's eyes at a frame: which bar, which beat, which strokes. */
import { toNumber } from '../rational.ts';
import { secOfFrames } from '../units.ts';
import { beatsUntil, endFrameOf, tempoAtBar } from './beats.ts';
import type { SessionBlock } from './block.ts';
import type { BlockLayout } from './layout.ts';
import { barAt, roundOf } from './round.ts';
import type { SessionState } from './state.ts';

/** The present moment of a running block. Bars and beats count from 0. */
export type Present =
  | { readonly part: 'waiting'; readonly secLeft: number }
  | { readonly part: 'countIn'; readonly bar: number; readonly bars: number; readonly beat: number }
  | {
      readonly part: 'exercise';
      readonly round: number;
      readonly bar: number;
      readonly bars: number;
      readonly beat: number;
      /** Cycle since the start of the round, and the main strokes in it that are due; none before the first stroke of the round. */
      readonly cycle: number;
      readonly indices: readonly number[];
    }
  | { readonly part: 'plain'; readonly round: number; readonly bar: number; readonly bars: number; readonly beat: number }
  | { readonly part: 'over' };

/**
 * What is due at a frame. A stroke is present from its own frame until the next stroke's. In a pause it stays where it was cut.
 * @returns `waiting` before a count-in, `over` when no block is laid out or its last bar has passed.
 */
export function presentStroke(state: SessionState, frame: number): Present {
  const block = state.blocks[state.block];
  const now = state.pausedAtFrame ?? frame;
  if (!state.layout || !block || now >= endFrameOf(state.layout)) return { part: 'over' };
  return presentOf(state.layout, block, now);
}

/** The tempo at a frame, and the one that comes at a bar line ahead; null where none does, or no block is laid out. */
export function temposAt({ layout }: SessionState, frame: number): { readonly nowBpm: number; readonly comingBpm: number | null } | null {
  if (!layout) return null;
  const bar = barAt(layout, frame);
  const coming = layout.changes?.find((change) => change.bar > Math.max(bar, layout.firstBar));
  return { nowBpm: tempoAtBar(layout, bar), comingBpm: coming?.tempoBpm ?? null };
}

/**
 * Whole seconds until the last bar of the present block is over, rounded up; null when no block is laid out.
 * Before a count-in they include the wait.
 */
export function secLeftInBlock(state: SessionState, frame: number): number | null {
  if (!state.layout) return null;
  return Math.max(0, Math.ceil(secOfFrames(endFrameOf(state.layout) - frame, state.sampleRateHz)));
}

function presentOf(layout: BlockLayout, block: SessionBlock, frame: number): Present {
  if (frame < layout.startFrame) return { part: 'waiting', secLeft: secOfFrames(layout.startFrame - frame, layout.sampleRateHz) };
  const beats = beatsUntil(layout, frame);
  const beat = Math.floor(beats) % layout.beatsPerBar;
  if (beats < layout.countInBars * layout.beatsPerBar) {
    return { part: 'countIn', bar: Math.floor(beats / layout.beatsPerBar), bars: layout.countInBars, beat };
  }
  const { round, barOfRound, plain } = roundOf(layout, barAt(layout, frame));
  const bars = layout.roundBars;
  if (plain) return { part: 'plain', round, bar: barOfRound - bars, bars, beat };
  const beatOfRound = barOfRound * layout.beatsPerBar + (beats % layout.beatsPerBar);
  return { part: 'exercise', round, bar: barOfRound, bars, beat, ...strokeAt(block, beatOfRound) };
}

/** The strokes of the last onset before `beatOfRound`; a cycle that begins with a rest still shows the one before. */
function strokeAt(block: SessionBlock, beatOfRound: number): { readonly cycle: number; readonly indices: readonly number[] } {
  const length = toNumber(block.cycle.lengthBeats);
  const cycle = Math.floor(beatOfRound / length);
  const due = lastOnset(block, beatOfRound - cycle * length);
  if (due.length > 0 || cycle === 0) return { cycle, indices: due };
  return { cycle: cycle - 1, indices: lastOnset(block, length) };
}

function lastOnset(block: SessionBlock, beat: number): readonly number[] {
  const passed = block.cycle.strokes.filter((stroke) => toNumber(stroke.beat) < beat);
  const last = Math.max(...passed.map((stroke) => toNumber(stroke.beat)));
  return passed.filter((stroke) => toNumber(stroke.beat) === last).map((stroke) => stroke.index);
}
