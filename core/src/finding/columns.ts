/** Causes and numbers as columns in units of their noise, over one or several takes. */
import { type Column, dot } from './evidence.ts';
import type { CycleView, Explanation } from './explanation.ts';
import type { Observed, ObservedTake } from './observed.ts';

/** A take with everything that could be behind it. */
export interface CaseTake {
  readonly observed: ObservedTake;
  readonly view: CycleView;
  readonly explanations: ReadonlyMap<string, Explanation>;
}

/** What is measured in numbers. */
export type Measured = 'time' | 'volume';

/** The numbers themselves. */
export const numbersOf = (takes: readonly CaseTake[], measured: Measured): Column =>
  joined(
    takes,
    measured,
    takes.map(({ observed }) => {
      const { place, value, means, deviations, precisions } = observed[measured];
      return {
        between: means.map((mean, at) => mean * Math.sqrt(precisions[at]!)),
        within: value.map((one, i) => (one - means[place[i]!]!) / deviations[place[i]!]!),
      };
    }),
  );

/** A cause in every take; a take that it does not touch gets zeros. */
export const columnOf = (takes: readonly CaseTake[], measured: Measured, key: string): Column =>
  joined(
    takes,
    measured,
    takes.map(({ observed, explanations }) => columnIn(observed, observed[measured], explanations.get(key) ?? null)),
  );

/** A column of a take's own: `weights` at the events of take `number`, nothing in the others. */
export const ownColumn = (takes: readonly CaseTake[], measured: Measured, own: { number: number; weights: Float64Array }): Column =>
  joined(
    takes,
    measured,
    takes.map(({ observed }, number) => {
      const { precisions } = observed[measured];
      return { between: precisions.map((precision, at) => (number === own.number ? own.weights[at]! * Math.sqrt(precision) : 0)), within: null };
    }),
  );

function columnIn(take: ObservedTake, observed: Observed, explanation: Explanation | null): Column {
  const { precisions } = observed;
  if (!explanation) return { between: new Float64Array(precisions.length), within: null };
  if (!explanation.at) return { between: explanation.weights.map((weight, at) => weight * Math.sqrt(precisions[at]!)), within: null };
  return changing(take, observed, explanation.at);
}

/** A cause whose share differs from cycle to cycle: its mean per place, and how single strokes differ from it. */
function changing(take: ObservedTake, observed: Observed, at: NonNullable<Explanation['at']>): Column {
  const { place, cycle, counts, deviations, precisions } = observed;
  const shares = place.length;
  const within = new Float64Array(shares);
  const means = new Float64Array(counts.length);
  for (let i = 0; i < shares; i++) {
    within[i] = at(place[i]!, cycle[i]!, (cycle[i]! - take.firstCycle + place[i]! / counts.length) / take.cycleCount);
    means[place[i]!]! += within[i]! / counts[place[i]!]!;
  }
  for (let i = 0; i < shares; i++) within[i] = (within[i]! - means[place[i]!]!) / deviations[place[i]!]!;
  return { between: means.map((mean, here) => mean * Math.sqrt(precisions[here]!)), within };
}

/** Columns of takes one after the other; takes in which nothing changes within a place are filled up with zeros when others do. */
function joined(takes: readonly CaseTake[], measured: Measured, parts: readonly Column[]): Column {
  if (parts.length === 1) return parts[0]!;
  const between = Float64Array.from(parts.flatMap((part) => Array.from(part.between)));
  if (parts.every(({ within }) => within === null)) return { between, within: null };
  const within = parts.flatMap((part, i) => Array.from(part.within ?? new Float64Array(takes[i]!.observed[measured].value.length)));
  return { between, within: Float64Array.from(within) };
}
/** Correlation of two columns, −1 to 1; 0 when either is empty. */
export function correlation(a: Column, b: Column): number {
  const size = Math.sqrt(dot(a, a) * dot(b, b));
  return size < 1e-9 ? 0 : dot(a, b) / size;
}
