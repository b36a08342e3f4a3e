/** The time that a block has in its session. */
import { frameOfSec, secOfMinutes } from '../units.ts';
import type { FrameSpan } from './block.ts';
import { minutesOf, type SessionState } from './state.ts';

/** Slot of a block: from the minutes before it and with it, never from where the last one happened to end. */
export function slotOf(state: SessionState, block: number): FrameSpan {
  const until = (count: number) => state.originFrame + frameOfSec(secOfMinutes(minutesOf(state.blocks.slice(0, count))), state.sampleRateHz);
  return { fromFrame: until(block), toFrame: until(block + 1) };
}
