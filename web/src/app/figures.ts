/** What the tables of a take show: a word first, the figure behind it, and what is compared with what. */
import type { Measurement, Pair } from '@evenhand/core/measurement';
import type { Figure } from '@evenhand/core/progress';

/** Which way a figure leans; `unsure` when its interval allows both or there is no figure. */
export type Leaning = 'less' | 'more' | 'even' | 'unsure';

/** Space inside a pair: too close, too far apart, or even, as far as the interval tells. */
export function gapLeaning(pair: Pair): Leaning {
  if (pair.gapShare === null || pair.gapLow === null || pair.gapHigh === null) return 'unsure';
  if (pair.gapHigh < 1) return 'less';
  return pair.gapLow > 1 ? 'more' : 'even';
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

/** Strokes heard more often than written, for a sentence. */
export const extraCount = (measurement: Measurement): number => measurement.extra.length;
