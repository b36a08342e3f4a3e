/** A measured statement about strokes, with how much stands behind it. */
import type { Statement } from '../problem.ts';

/** First version: one place, one pair, or nothing that stands out. */
export type Cause = 'place' | 'pair' | 'none';

export interface Finding extends Statement {
  readonly cause: Cause;
  /** Main strokes concerned, by index from 0. */
  readonly indices: readonly number[];
  /** How much of what is known speaks for it, 0 to 1; weights of all findings of a take sum to at most 1. */
  readonly weight: number;
}
