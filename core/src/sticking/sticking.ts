/** A sticking as data: what was written, and the strokes it means. */
import type { Problem } from '../problem.ts';
import type { Rational } from '../rational.ts';

/** R L hands, K bass-drum foot, H the other foot. */
export type Limb = 'R' | 'L' | 'K' | 'H';

/** The two limbs that can play a grace stroke. */
export type Hand = 'R' | 'L';

/** One main stroke of a cycle. */
export interface WrittenStroke {
  /** Place among the main strokes, from 0, in order of time, strokes together in order of writing; rests and graces are not counted. */
  readonly index: number;
  readonly limb: Limb;
  /** Onset in slots from the start of the cycle. Strokes together share it. */
  readonly slot: Rational;
  /** What the stroke itself takes up in slots: one, its share of a group, or half of that for a stroke of a diddle. Rests are not included. */
  readonly lengthSlots: Rational;
  /** Of an accented diddle only the first stroke is accented. */
  readonly accent: boolean;
  readonly ghost: boolean;
  readonly buzz: boolean;
  /** Which half of a diddle (`R/`) it is, or null. */
  readonly diddle: 'first' | 'second' | null;
  /** Hands of the grace strokes before it, in order of playing: one is a flam, two a drag. */
  readonly graces: readonly Hand[];
  /** Offset in the text of the letter that wrote it. */
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
  /** `suggestion` is what to type instead, one space for "nothing", empty when there is no guess. */
  | Problem<'sticking-unknown-character', { readonly character: string; readonly suggestion: string }>
  /** A character of the language where it means nothing. */
  | Problem<'sticking-stray', { readonly character: string }>
  /** `found` is the character left open; `missing` what would close it: `)`, `}`, `:` or `stroke`. */
  | Problem<'sticking-unfinished', { readonly found: string; readonly missing: string }>
  | Problem<'sticking-group-count', { readonly found: string }>
  | Problem<'sticking-group-empty', Record<string, never>>
  | Problem<'sticking-same-limb-together', { readonly limb: string }>
  | Problem<'sticking-grace-own-hand', { readonly limb: string }>
  | Problem<'sticking-grace-count', { readonly graceCount: number; readonly limit: number }>
  | Problem<'sticking-too-long', { readonly slotCount: number; readonly limit: number }>
  /** Small letters that were probably meant as soft strokes; `suggestion` is the whole sticking written so. */
  | Problem<'sticking-reads-as-grace', { readonly written: string; readonly suggestion: string }>;
