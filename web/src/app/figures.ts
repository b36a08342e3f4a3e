/** What the tables of a take show: a word first, the figure behind it, and what is compared with what. */
import type { CauseParams } from '@evenhand/core/finding';
import type { Measurement, Pair } from '@evenhand/core/measurement';
import type { Figure } from '@evenhand/core/progress';

/** Which way a space leans; `perhaps` when it is off by more than is heard and its interval still allows that it is not; `unsure` when there is no figure. */
export type Leaning = 'less' | 'perhapsLess' | 'more' | 'perhapsMore' | 'even' | 'unsure';

/** Space inside a pair: too close, too far apart, or even, as far as the interval tells. @param tolerance share of the space that is not heard. */
export function gapLeaning(pair: Pair, tolerance: number): Leaning {
  if (pair.gapShare === null || pair.gapLow === null || pair.gapHigh === null) return 'unsure';
  if (pair.gapHigh < 1) return 'less';
  if (pair.gapLow > 1) return 'more';
  const off = pair.gapShare - 1;
  return off < -tolerance ? 'perhapsLess' : off > tolerance ? 'perhapsMore' : 'even';
}

/** A figure with its sign, in whole or tenth steps: "−18", "+2.5". A missing one is a dash. */
export function signed(value: number | null, digits = 0): string {
  if (value === null) return '–';
  const text = Math.abs(value).toFixed(digits);
  if (Number(text) === 0) return text;
  return `${value < 0 ? '−' : '+'}${text}`;
}

/** A figure with its range, each shown alike: "12 (9 … 15)". A missing one is a dash. */
export const ranged = (figure: Figure | null, show: (value: number) => string): string =>
  figure ? `${show(figure.value)} (${show(figure.low)}\u00a0…\u00a0${show(figure.high)})` : '–';

/** What a sentence about strokes rests on, each figure with its range: "−14 ms (−19 … −8), +3.0 dB (+1.6 … +4.4)". Empty when neither time nor volume is told. */
export function effectFigures(params: CauseParams): string {
  const { effectMs, effectLowMs, effectHighMs, effectDb, effectLowDb, effectHighDb } = params;
  const of = (unit: string, digits: number, [value, low, high]: readonly [number, number, number]) =>
    `${signed(value, digits)} ${unit} (${signed(low, digits)}\u00a0…\u00a0${signed(high, digits)})`;
  return [
    ...(params.time === 'even' ? [] : [of('ms', 0, [effectMs, effectLowMs, effectHighMs])]),
    ...(params.volume === 'even' ? [] : [of('dB', 1, [effectDb, effectLowDb, effectHighDb])]),
  ].join(', ');
}

/** Strokes heard more often than written, for a sentence. */
export const extraCount = (measurement: Measurement): number => measurement.extra.length;
