/** The take of a block, asked for while the block still waits, by frames: a page that is busy when the block begins loses no stroke of it. */
import { frameOfSec } from '../units.ts';
import { endFrameOf } from './beats.ts';
import { TAKE_TAIL_SEC } from './parameters.ts';
import type { AskedTake, SessionEffect, SessionState, SessionStep } from './state.ts';

/** Asks for the take that the state needs, tells where its end moved, and drops one whose block does not begin as it was laid out. */
export function settleTake(state: SessionState): SessionStep {
  const { takeAsked } = state;
  const wanted = takeWanted(state);
  const effects = changing(takeAsked, wanted);
  return { state: effects.length > 0 ? { ...state, takeAsked: wanted } : state, effects };
}

/** From the first click of its count-in until its last stroke has rung out; null while nothing is to be recorded. */
function takeWanted({ phase, layout, block, runs, takeAsked, sampleRateHz }: SessionState): AskedTake | null {
  if (!layout || (phase !== 'breather' && phase !== 'playing')) return null;
  const toFrame = endFrameOf(layout) + frameOfSec(TAKE_TAIL_SEC, sampleRateHz);
  if (phase === 'playing') return takeAsked && { ...takeAsked, toFrame };
  return { take: `block-${block + 1}-${runs.length + 1}`, block, fromFrame: layout.startFrame, toFrame };
}

function changing(asked: AskedTake | null, wanted: AskedTake | null): readonly SessionEffect[] {
  if (asked && wanted && asked.take === wanted.take && asked.fromFrame === wanted.fromFrame)
    return asked.toFrame === wanted.toFrame ? [] : [{ kind: 'moveTakeEnd', take: asked.take, toFrame: wanted.toFrame }];
  return [
    ...(asked ? [{ kind: 'dropTake', take: asked.take, block: asked.block } as const] : []),
    ...(wanted ? [{ kind: 'openTake', ...wanted } as const] : []),
  ];
}
