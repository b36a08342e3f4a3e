/** A cycle as the moments at which something is struck: strokes together are one event, and the events go on cycle after cycle. */
import type { ExpectedCycle, ExpectedStroke } from '../exercise/index.ts';
import { toNumber } from '../rational.ts';

/** One moment of the cycle. */
export interface CycleEvent {
  /** Beats from the start of the cycle. */
  readonly beat: number;
  readonly strokes: readonly ExpectedStroke[];
  /** Beats to the nearest event before or after, in the endless row of cycles. */
  readonly spaceBeats: number;
  readonly graceCount: number;
  readonly accent: boolean;
  readonly ghost: boolean;
  readonly buzz: boolean;
  /** Something is played with the bass-drum foot. */
  readonly kick: boolean;
  /** Something is played by a hand or the other foot. */
  readonly hand: boolean;
}

export interface EventCycle {
  readonly lengthBeats: number;
  readonly events: readonly CycleEvent[];
}

/** The events of a cycle in order of time. */
export function eventsOf(cycle: ExpectedCycle): EventCycle {
  const lengthBeats = toNumber(cycle.lengthBeats);
  const groups = new Map<number, ExpectedStroke[]>();
  for (const stroke of cycle.strokes) {
    const beat = toNumber(stroke.beat);
    groups.set(beat, [...(groups.get(beat) ?? []), stroke]);
  }
  const beats = [...groups.keys()].sort((a, b) => a - b);
  const events = beats.map((beat, i) => {
    const before = i === 0 ? beats.at(-1)! - lengthBeats : beats[i - 1]!;
    const after = i === beats.length - 1 ? beats[0]! + lengthBeats : beats[i + 1]!;
    return eventOf(beat, groups.get(beat)!, Math.min(beat - before, after - beat));
  });
  return { lengthBeats, events };
}

const eventOf = (beat: number, strokes: readonly ExpectedStroke[], spaceBeats: number): CycleEvent => ({
  beat,
  strokes,
  spaceBeats,
  graceCount: Math.max(...strokes.map((stroke) => stroke.graceCount)),
  accent: strokes.some((stroke) => stroke.accent),
  ghost: strokes.every((stroke) => stroke.ghost),
  buzz: strokes.some((stroke) => stroke.buzz),
  kick: strokes.some((stroke) => stroke.limb === 'K'),
  hand: strokes.some((stroke) => stroke.limb !== 'K'),
});

/** Which event of its cycle the event `number` is, counting on through all cycles from 0. */
export const placeOf = (cycle: EventCycle, number: number): number => number % cycle.events.length;

/** Which cycle the event `number` belongs to. */
export const cycleOf = (cycle: EventCycle, number: number): number => Math.floor(number / cycle.events.length);

/** Beats from the start of cycle 0 to the event `number`. */
export const beatOf = (cycle: EventCycle, number: number): number =>
  cycleOf(cycle, number) * cycle.lengthBeats + cycle.events[placeOf(cycle, number)]!.beat;

/** The last event at or before `beat`; −1 when there is none. */
export function eventBefore(cycle: EventCycle, beat: number): number {
  const whole = Math.max(0, Math.floor(beat / cycle.lengthBeats));
  const count = cycle.events.length;
  let number = whole * count + count - 1;
  while (number >= 0 && beatOf(cycle, number) > beat) number -= 1;
  return number;
}
