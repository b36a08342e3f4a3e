/** An explanation with what the data say about it, and what comes of weighing them. */
import type { Effect } from './evidence.ts';
import type { Explanation } from './explanation.ts';

/** What a rate looks like where a cause touches. */
export interface Rate {
  readonly hits: number;
  readonly chances: number;
}

/** An explanation with what the data say about it. */
export interface Case {
  readonly explanation: Explanation;
  /** Effects that are there and are heard; null: none. */
  readonly time: Effect | null;
  readonly volume: Effect | null;
  readonly missed: Rate | null;
  readonly bounced: Rate | null;
  readonly apart: Rate | null;
  /** Logarithm of how much likelier the data are than with nothing the matter. */
  readonly logOdds: number;
}

/** What one round found. */
export interface Verdict {
  readonly told: Case;
  /** Causes that touch the same strokes, so that these takes cannot tell them apart. */
  readonly ties: readonly Case[];
  /** Posterior probability of the told cause and its ties. */
  readonly weight: number;
  /** Other causes and their probabilities, likeliest first. */
  readonly rivals: readonly { readonly rival: Case; readonly weight: number }[];
}
