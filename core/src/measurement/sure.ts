/** Which strokes timing may rest on. */
import { FEWEST_SURE, TIMING_CONFIDENCE } from './parameters.ts';

/** Strokes, and whether they had to be taken although their times are not sure. */
export interface Timed<T> {
  readonly values: readonly T[];
  readonly unsure: boolean;
}

/** Those of confidence .5 or more where there are enough of them to have an interval, or no others; otherwise all, and told so. */
export function sureOnes<T>(values: readonly T[], confidenceOf: (value: T) => number): Timed<T> {
  const sure = values.filter((value) => confidenceOf(value) >= TIMING_CONFIDENCE);
  const enough = sure.length >= FEWEST_SURE || sure.length === values.length;
  return { values: enough ? sure : values, unsure: !enough };
}
