/** Blocks and players of the button for the tests of this stage. */
import type { Exercise, ExpectedCycle } from '../exercise/index.ts';
import { lcm, rational } from '../rational.ts';
import type { Limb } from '../sticking/index.ts';
import type { SessionBlock } from './block.ts';
import { stepSession } from './session.ts';
import type { Heard, SessionEffect, SessionEvent, SessionState } from './state.ts';

/** A block of plain letters, `perBeat` to the beat, in 4/4. */
export function blockOf(letters: string, change: Partial<SessionBlock> & { readonly perBeat?: number } = {}): SessionBlock {
  const { perBeat = 4, ...rest } = change;
  const cycle: ExpectedCycle = {
    lengthBeats: rational(letters.length, perBeat),
    strokes: [...letters].map((limb, index) => ({
      index,
      limb: limb as Limb,
      surface: limb === 'K' ? 'kick' : 'snare',
      beat: rational(index, perBeat),
      accent: false,
      ghost: false,
      buzz: false,
      graceCount: 0,
    })),
  };
  const exercise: Exercise = {
    id: letters,
    family: 'rudiment',
    sticking: letters,
    surfaces: cycle.strokes.map((stroke) => stroke.surface),
    perBeat,
    meter: { beats: 4, unit: 4 },
    bars: lcm(letters.length, 4 * perBeat) / (4 * perBeat),
    title: { code: 'title-whole', params: { sticking: letters } },
    reason: { code: 'reason-whole', params: { cell: letters } },
  };
  return { exercise, cycle, minutes: 1, tempoBpm: 100, aim: { code: 'aim', params: {} }, reason: { code: 'reason', params: {} }, ...rest };
}

/** What an ear might answer. */
export const heardAt = (nextTempoBpm: number): Heard => ({
  said: { code: 'said', params: {} },
  clean: 7,
  runs: 8,
  nextTempoBpm,
  why: { code: 'why', params: {} },
});

/** Runs events through a session; every effect in order, each with the frame at which it came. */
export function play(state: SessionState, events: readonly SessionEvent[]) {
  const log: { readonly frame: number; readonly effect: SessionEffect }[] = [];
  let now = state;
  for (const event of events) {
    const step = stepSession(now, event);
    log.push(...step.effects.map((effect) => ({ frame: event.frame, effect })));
    now = step.state;
  }
  return { state: now, log, effects: log.map((line) => line.effect) };
}

/** Ticks every `everySec` from one second to another. */
export const ticks = (fromSec: number, toSec: number, everySec: number, sampleRateHz: number): readonly SessionEvent[] =>
  Array.from({ length: Math.floor((toSec - fromSec) / everySec) + 1 }, (_, k) => ({
    kind: 'tick' as const,
    frame: Math.round((fromSec + k * everySec) * sampleRateHz),
  }));
