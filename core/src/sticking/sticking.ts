/** A sticking as data: what was written, and the strokes it means. */
import type { Problem } from '../problem.ts';
import type { Rational } from '../rational.ts';

/** R L hands, K bass-drum foot, H the other foot. */
export type Limb = 'R' | 'L' | 'K' | 'H';

/** One main stroke of a cycle. */
export interface WrittenStroke {
  /** Place among the main strokes, from 0; rests and graces are not counted. */
  readonly index: number;
  readonly limb: Limb;
  /** Onset in slots from the start of the cycle. Strokes together share it. */
  readonly slot: Rational;
  /** Slots until the next event, rests not included: what the stroke itself takes up. */
  readonly lengthSlots: Rational;
  readonly accent: boolean;
  readonly ghost: boolean;
  readonly buzz: boolean;
  /** Which half of a diddle (`R/`) it is, or null. */
  readonly diddle: 'first' | 'second' | null;
  /** Hands of the grace strokes before it, in order of playing: one is a flam, two a drag. */
  readonly graces: readonly ('R' | 'L')[];
  /** Offset in the text of the character that wrote it. */
  readonly at: number;
}

/** A sticking read from text. */
export interface Sticking {
  /** The sticking written in its one canonical way; reading it again gives the same. */
  readonly text: string;
  /** Length of one cycle in slots, a whole number. */
  readonly slotCount: number;
  readonly strokes: readonly WrittenStroke[];
}

/** What can be wrong in a written sticking. `at` is the offset of the character. */
export type StickingProblem =
  | Problem<'sticking-empty', Record<string, never>>
  | Problem<'sticking-no-stroke', Record<string, never>>
  | Problem<'sticking-unknown-character', { readonly character: string; readonly suggestion: string }>
  | Problem<'sticking-stray', { readonly character: string }>
  | Problem<'sticking-unfinished', { readonly missing: string }>
  | Problem<'sticking-group-count', { readonly found: string }>
  | Problem<'sticking-group-empty', Record<string, never>>
  | Problem<'sticking-same-limb-together', { readonly limb: string }>
  | Problem<'sticking-grace-own-hand', { readonly limb: string }>
  | Problem<'sticking-too-long', { readonly slotCount: number; readonly limit: number }>
  | Problem<'sticking-reads-as-grace', { readonly written: string; readonly suggestion: string }>;
