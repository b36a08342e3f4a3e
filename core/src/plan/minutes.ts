/** How the minutes of a session are shared out, in quarter minutes so that nothing is lost. */
import {
  BOTH_REFERENCES_FROM,
  EDGE_QUARTERS,
  QUARTERS_PER_MINUTE,
  REFERENCE_QUARTERS,
  USE_SHARE,
  WARM_UP_SHARE,
  WORK_QUARTERS,
} from './parameters.ts';

/** Minutes of each block of a session; together exactly the session. */
export interface SharedMinutes {
  readonly warmUp: number;
  /** One or two reference takes, or none. */
  readonly references: readonly number[];
  /** At least one block; none is more than a quarter minute longer than another. */
  readonly work: readonly number[];
  readonly use: number;
}

/** Minutes rounded to a quarter. */
export const toQuarters = (minutes: number): number => Math.round(minutes * QUARTERS_PER_MINUTE) / QUARTERS_PER_MINUTE;

/**
 * Shares the minutes of a session out. `shareMinutes(12)` is two of warm-up, three times three of work, one of use.
 * @param minutes 3 to 60; rounded to quarters.
 * @param parts whether reference takes are due; how much of the work is left (0 to 1, default all; the session gets shorter by the rest).
 */
export function shareMinutes(minutes: number, parts: { readonly reference?: boolean; readonly workShare?: number } = {}): SharedMinutes {
  const whole = Math.round(minutes * QUARTERS_PER_MINUTE);
  const warmUp = edge(whole * WARM_UP_SHARE);
  const use = edge(whole * USE_SHARE);
  const references = parts.reference ? Array<number>(whole >= BOTH_REFERENCES_FROM ? 2 : 1).fill(REFERENCE_QUARTERS) : [];
  const left = whole - warmUp - use - references.length * REFERENCE_QUARTERS;
  const work = evenly(Math.max(EDGE_QUARTERS.least, Math.round(left * (parts.workShare ?? 1))));
  const minutesOf = (quarters: number) => quarters / QUARTERS_PER_MINUTE;
  return { warmUp: minutesOf(warmUp), references: references.map(minutesOf), work: work.map(minutesOf), use: minutesOf(use) };
}

const edge = (quarters: number): number => Math.min(EDGE_QUARTERS.most, Math.max(EDGE_QUARTERS.least, Math.round(quarters)));

/** Blocks as near three minutes as can be, the longer ones first. */
function evenly(quarters: number): readonly number[] {
  const count = Math.max(1, Math.round(quarters / WORK_QUARTERS));
  const each = Math.floor(quarters / count);
  return Array.from({ length: count }, (_, k) => each + (k < quarters - each * count ? 1 : 0));
}
