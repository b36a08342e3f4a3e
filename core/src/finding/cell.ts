/** The strokes to work on, from those that a finding names. */
import type { Finding } from './finding.ts';

/**
 * By the first finding that names any stroke: one stroke with the one before it, so that the way into it is practised; strokes that
 * stand together; of strokes that lie apart the first with the one before it. The whole cycle when most are named, or none.
 * @returns first and last main stroke, from 0; it may wrap around the end of the cycle.
 */
export function cellToWorkOn(findings: readonly Pick<Finding, 'indices'>[], strokeCount: number): { readonly first: number; readonly last: number } {
  const named = findings.find(({ indices }) => indices.length > 0)?.indices ?? [];
  const [first, last] = [named[0], named.at(-1)];
  if (first === undefined || last === undefined || named.length > strokeCount / 2) return { first: 0, last: strokeCount - 1 };
  const together = last - first + 1 === named.length && named.length > 1;
  return together ? { first, last } : { first: (first + strokeCount - 1) % strokeCount, last: first };
}
