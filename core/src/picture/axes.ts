/** Ordinary axes: a line, ticks at round numbers, labels, faint lines across the plot. */
import { SMALL_TEXT_PX } from './parameters.ts';
import { element, line, textAt } from './svg.ts';

/** A tick: where it is on its axis, in px, and what it says. */
export interface Tick {
  readonly atPx: number;
  readonly label: string;
}

/** The rectangle that a plot fills. */
export interface PlotArea {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const FAINT = { stroke: 'currentColor', 'stroke-opacity': 0.18, 'stroke-width': 1 };
const STRONG = { stroke: 'currentColor', 'stroke-opacity': 0.7, 'stroke-width': 1 };

/** The axis at the left of a plot; all its ticks look alike. */
export const leftAxis = (area: PlotArea, ticks: readonly Tick[]): string =>
  element(
    'g',
    { class: 'picture-axis picture-axis-left' },
    line([area.left, area.top], [area.left, area.bottom], STRONG),
    ...ticks.flatMap(({ atPx, label }) => [
      line([area.left, atPx], [area.right, atPx], FAINT),
      line([area.left - 4, atPx], [area.left, atPx], STRONG),
      textAt(label, { x: area.left - 8, y: atPx, 'font-size': SMALL_TEXT_PX, 'text-anchor': 'end', 'dominant-baseline': 'central' }),
    ]),
  );

/** The axis below a plot, with what it counts at its right end. */
export const bottomAxis = (area: PlotArea, ticks: readonly Tick[], title: string): string =>
  element(
    'g',
    { class: 'picture-axis picture-axis-bottom' },
    line([area.left, area.bottom], [area.right, area.bottom], STRONG),
    ...ticks.flatMap(({ atPx, label }) => [
      line([atPx, area.bottom], [atPx, area.bottom + 4], STRONG),
      textAt(label, { x: atPx, y: area.bottom + 16, 'font-size': SMALL_TEXT_PX, 'text-anchor': 'middle' }),
    ]),
    ...(title === '' ? [] : [textAt(title, { x: area.right, y: area.bottom + 34, 'font-size': SMALL_TEXT_PX, 'text-anchor': 'end' })]),
  );

/** What an upright axis counts, above it. */
export const upTitle = (area: PlotArea, title: string): string => textAt(title, { x: area.left - 8, y: area.top - 14, 'font-size': SMALL_TEXT_PX });
