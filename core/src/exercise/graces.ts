/** When small notes fall: a time before their stroke that does not depend on the tempo. */
import { DRAG_SEC, FLAM_SEC } from './parameters.ts';

/** Seconds from each grace to its stroke, first to last: the one of a flam, the two of a drag. */
export function graceLeadsSec(graceCount: number): readonly number[] {
  const firstSec = graceCount > 1 ? DRAG_SEC : FLAM_SEC;
  return Array.from({ length: graceCount }, (_, i) => (firstSec * (graceCount - i)) / graceCount);
}
