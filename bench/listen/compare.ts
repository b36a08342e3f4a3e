/** Listens to all reference takes with one ear and compares with the truth. */
import { type Measurement, type MeasurementProblem, measure } from '../../core/src/measurement/index.ts';
import type { Reading } from '../../core/src/problem.ts';
import type { Listener } from './ears.ts';
import { figuresOf, type Summary, summaryOf, type TakeFigures } from './figures.ts';
import { cycleOfTruth, type ListenTake } from './takes.ts';

/** Figures of every take, and of all together. */
export interface Comparison {
  readonly takes: readonly TakeFigures[];
  readonly summary: Summary;
}

/** Measures a take as the command `listen` does: told its sticking, tempo and clicks. */
export function measureTake(take: ListenTake, ear: Listener): Reading<Measurement, MeasurementProblem> {
  const { tempoBpm, durationSec, clicks } = take.truth;
  const { candidates, loudness } = ear(take);
  return measure(candidates, cycleOfTruth(take.truth), { tempoBpm, durationSec, clickTimesSec: clicks, ...(loudness ? { loudness } : {}) });
}

export function compare(takes: readonly ListenTake[], ear: Listener): Comparison {
  const figures = takes.map((take) => figuresOf(take.truth, measureTake(take, ear).value));
  return { takes: figures, summary: summaryOf(figures) };
}
