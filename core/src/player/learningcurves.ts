/** The published laws of practice: how much of a difficulty is left after so many repetitions. */

/** The three laws that are drawn for simulated players. */
export type LearningLaw =
  | { readonly kind: 'exponential'; readonly rate: number }
  | { readonly kind: 'power'; readonly exponent: number }
  | { readonly kind: 'apex'; readonly rate: number; readonly exponent: number };

/**
 * Power law of practice, start · N^−α.
 * @param count repetitions, from 1.
 * @source [NewellRosenbloom1981]
 * @example powerLaw(10, { start: 100, exponent: 0.3 }) // 50.12
 */
export const powerLaw = (count: number, { start, exponent }: { readonly start: number; readonly exponent: number }): number =>
  start * count ** -exponent;

/**
 * Exponential law of practice, end + span · e^−αN; a span below zero rises towards a ceiling.
 * @source [Heathcote2000] fits single players better than the power law.
 * @example exponentialLaw(14, { end: 140, span: -60, rate: 0.05 }) // 110.2
 */
export const exponentialLaw = (count: number, { end, span, rate }: { readonly end: number; readonly span: number; readonly rate: number }): number =>
  end + span * Math.exp(-rate * count);

/** Repetitions in which what is left halves under the exponential law. */
export const halfLifeCount = (rate: number): number => Math.LN2 / rate;

/** Both at once, end + span · e^−αN · N^−β. @param count repetitions, from 1. @source [Heathcote2000] */
export const apexLaw = (
  count: number,
  { end, span, rate, exponent }: { readonly end: number; readonly span: number; readonly rate: number; readonly exponent: number },
): number => exponentialLaw(count, { end, span: span * powerLaw(count, { start: 1, exponent }), rate });

/** Share of a difficulty that is left after `count` repetitions (from 0, where all of it is). */
export function shareLeft(count: number, law: LearningLaw): number {
  switch (law.kind) {
    case 'exponential':
      return exponentialLaw(count, { end: 0, span: 1, rate: law.rate });
    case 'power':
      return powerLaw(1 + count, { start: 1, exponent: law.exponent });
    case 'apex':
      return apexLaw(1 + count, { end: 0, span: Math.exp(law.rate), rate: law.rate, exponent: law.exponent });
  }
}
