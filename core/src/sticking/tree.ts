/** A sticking as it is written: events and groups, before anything is counted. */
import type { Hand, Limb } from './sticking.ts';

/** One written letter with its signs. */
export interface Core {
  readonly limb: Limb;
  readonly accent: boolean;
  readonly ghost: boolean;
  /** `diddle` is `R/`, `buzz` is `Rz`. */
  readonly roll: 'none' | 'diddle' | 'buzz';
  readonly graces: readonly Hand[];
  /** Offset of the letter. */
  readonly at: number;
}

/** One place in time: strokes played together, or none for a rest. */
export interface Event {
  readonly strokes: readonly Core[];
  readonly at: number;
}

/** Events evenly in the time of `slotCount` slots; a plain event is a part of one slot and one event. */
export interface Part {
  readonly kind: 'event' | 'group';
  readonly slotCount: number;
  readonly events: readonly Event[];
  readonly at: number;
}

export type Tree = readonly Part[];

/** Main strokes that an event counts for: a diddle is two. */
export const strokeCountOf = (event: Event): number => event.strokes.reduce((sum, stroke) => sum + (stroke.roll === 'diddle' ? 2 : 1), 0);

/** Main strokes in a part. */
export const strokeCountIn = (part: Part): number => part.events.reduce((sum, event) => sum + strokeCountOf(event), 0);

/** Slots in a tree. */
export const slotCountOf = (tree: Tree): number => tree.reduce((sum, part) => sum + part.slotCount, 0);
