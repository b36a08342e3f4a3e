/** Commands that lay the session out anew: again, slower, faster, a tempo, go on now. */
import { frameOfSec, minutesOfSec, secOfFrames } from '../units.ts';
import { barFrame, endFrameOf, tempoAtBar } from './beats.ts';
import { resumeLayout, type SessionBlock } from './block.ts';
import { clicksOf, withFewerClicks } from './click.ts';
import type { BlockLayout } from './layout.ts';
import { ASKED_STEP_SHARE, START_LEAD_SEC } from './parameters.ts';
import { barAt, roundOf } from './round.ts';
import type { Heard, SessionState } from './state.ts';

/** What a player asks of the tempo: less, more, or a tempo in beats a minute. */
export type Asked = 'slower' | 'faster' | number;

/** Whether a block waits for its first count-in. */
export const waitsToBegin = ({ phase, runs }: SessionState): boolean => (phase === 'breather' || phase === 'paused') && runs.length === 0;

/** The tempo of a block after "slower" or "faster", or one that was given; never over a teacher's cap. Null where it does not move. */
export function askedTempoBpm(block: SessionBlock, asked: Asked): number | null {
  const step = block.tempoBpm * ASKED_STEP_SHARE;
  const wished = typeof asked === 'number' ? asked : asked === 'slower' ? Math.floor(block.tempoBpm - step) : Math.ceil(block.tempoBpm + step);
  const tempoBpm = Math.round(Math.min(wished, block.capBpm ?? Infinity));
  return block.fixedTempo || tempoBpm < 1 || tempoBpm === block.tempoBpm ? null : tempoBpm;
}

/** The same for the present block, from the tempo that it has at a frame. */
export function presentAsked({ blocks, block, layout }: SessionState, frame: number, asked: Asked): number | null {
  const present = blocks[block];
  return present && layout ? askedTempoBpm({ ...present, tempoBpm: tempoAtBar(layout, barAt(layout, frame)) }, asked) : null;
}

/** A tempo the player asked for: after "slower" what is heard never lifts it within this block, until "faster" or a tempo is said. */
export function heldAt(
  { blocks, block }: SessionState,
  { tempoBpm, asked }: { readonly tempoBpm: number; readonly asked: Asked },
): Pick<SessionBlock, 'tempoBpm' | 'heldBpm'> {
  const held = asked === 'slower' || (typeof asked === 'number' && blocks[block]!.tempoBpm > tempoBpm);
  return { tempoBpm, heldBpm: held ? tempoBpm : null };
}

/** The blocks with the present one changed. */
export const withPresent = (state: SessionState, change: Partial<SessionBlock>): SessionState => ({
  ...state,
  blocks: state.blocks.map((block, i) => (i === state.block ? { ...block, ...change } : block)),
});

/** The block before the present one is put in once more; or taken out again, if that is what waits. Null where none was played. */
export function withRepeat(state: SessionState): SessionState | null {
  const { blocks, block } = state;
  if (blocks[block]?.repeated) return { ...state, blocks: blocks.filter((_, i) => i !== block) };
  const before = blocks[block - 1];
  const outcome = state.outcomes.find((one) => one.block === block - 1);
  if (!before || !outcome) return null;
  const tempoBpm = before.fixedTempo ? before.tempoBpm : (outcome.heard?.nextTempoBpm ?? before.tempoBpm);
  return { ...state, blocks: [...blocks.slice(0, block), { ...before, tempoBpm, repeated: true }, ...blocks.slice(block)] };
}

/** First bar of the round in which a frame lies, or which the plain time at that frame follows. */
export function roundStartAt(layout: BlockLayout, frame: number): number {
  const bar = Math.min(layout.barCount - 1, barAt(layout, frame));
  return Math.max(0, bar - roundOf(layout, bar).barOfRound);
}

/** The bar line at which a block that runs can change its tempo; null in its count-in and its last bar. */
export function nextBarLine(layout: BlockLayout, frame: number): number | null {
  if (frame < barFrame(layout, layout.firstBar)) return null;
  const bar = barAt(layout, frame) + 1;
  return bar < layout.barCount ? barFrame(layout, bar) : null;
}

/**
 * The present block cut in two at a frame inside its slot: what is left of its minutes becomes a block of its own, at another tempo and without
 * a breather, so that each part stands in the diary with its own tempo.
 */
export function cutInTwo(
  state: SessionState,
  cut: { readonly slotFrom: number; readonly atFrame: number } & Pick<SessionBlock, 'tempoBpm' | 'heldBpm'>,
): SessionState {
  const block = state.blocks[state.block]!;
  const played = minutesOfSec(secOfFrames(cut.atFrame - cut.slotFrom, state.sampleRateHz));
  const rest = {
    ...block,
    minutes: block.minutes - played,
    tempoBpm: cut.tempoBpm,
    joined: true,
    heldBpm: cut.heldBpm ?? null,
  };
  const blocks = [...state.blocks.slice(0, state.block), { ...block, minutes: played }, rest, ...state.blocks.slice(state.block + 1)];
  return { ...state, blocks };
}

/** A layout laid out again from `bar` on, counted in after the time it takes to take up the sticks; what follows it moves along. */
export function laidFrom(state: SessionState, frame: number, bar: number): { readonly state: SessionState; readonly layout: BlockLayout } {
  const old = state.layout!;
  const layout = resumeLayout(old, frame + frameOfSec(START_LEAD_SEC, state.sampleRateHz), bar);
  return { layout, state: { ...state, originFrame: state.originFrame + endFrameOf(layout) - endFrameOf(old) } };
}

export const clicksEffect = (layout: BlockLayout) => ({ kind: 'clicks', clicks: clicksOf(layout) }) as const;

/** What of a block its layout depends on. */
export const laidOutBy = (block: SessionBlock | undefined): string => JSON.stringify([block?.tempoBpm, block?.click]);

/** Where clicks are to become fewer, a tempo that would rise stays once and the click is thinned in its place. */
export function followed(block: SessionBlock, { nextTempoBpm }: Heard): SessionBlock {
  const tempoBpm = Math.min(nextTempoBpm, block.heldBpm ?? Infinity);
  if (!block.fewerClicks || tempoBpm <= block.tempoBpm) return { ...block, tempoBpm };
  return { ...block, click: withFewerClicks(block.click ?? {}), fewerClicks: false };
}
