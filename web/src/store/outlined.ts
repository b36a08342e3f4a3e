/** What the outlines beside the records are of. */
import { OUTLINE_VERSION, type OutlineSeries } from '@evenhand/core/diary';
import { newId } from './id.ts';

/** What the segments are of. They hold the whole diary only while these figures are those of the records. */
export interface Outlined {
  readonly version: number;
  /** Records in them. */
  readonly count: number;
  /** Place of the last segment of each series, from 0. */
  readonly last: Readonly<Record<OutlineSeries, number>>;
  /** Another each time they are made anew. */
  readonly making: string;
}

/** Which series, and the place in it. */
export type SegmentKey = [series: 0 | 1, place: number];

/** The outline of no records. */
export const noOutline = (): Outlined => ({ version: OUTLINE_VERSION, count: 0, last: { standing: 0, days: 0 }, making: newId() });
