/** A take made ready to be weighed. */
import type { ExpectedCycle } from '../exercise/index.ts';
import type { Measurement } from '../measurement/index.ts';
import type { CaseTake } from './columns.ts';
import { explanationsOf } from './explanation.ts';
import { isKept, observeKept } from './kept.ts';
import { observe } from './observed.ts';

/** What a take is weighed with. */
export interface TakeOptions {
  /** What was asked for: drums and written dynamics decide what is compared with what. */
  readonly cycle: ExpectedCycle;
  /** Beats of a bar; 4 unless said. */
  readonly barBeats?: number;
  /** Main strokes of the fill, from 0; unless said, a row that goes to the toms. */
  readonly fill?: readonly number[];
  /** Of each main stroke, by index, which of the sticking point's it stands for (null: of none); each for itself unless said. */
  readonly standsFor?: readonly (number | null)[];
}

/** A measured take with everything that could be behind it. */
export function caseTake(measurement: Measurement, { cycle, barBeats = 4, fill = [], standsFor }: TakeOptions): CaseTake {
  const observed = isKept(measurement) ? observeKept(measurement, cycle) : observe(measurement, cycle);
  const { events, lengthBeats, clicked } = observed;
  const stands = (index: number) => (standsFor ? (standsFor[index] ?? null) : index);
  const view = { events, lengthBeats, barBeats, fill, clicked, standsFor: stands };
  return { observed, view, explanations: new Map(explanationsOf(view).map((explanation) => [explanation.key, explanation])) };
}
