/** Cycles against milliseconds, a row per place, on ordinary axes: whether a stroke drifts, scatters or tires. */
import { scaleLinear } from 'd3-scale';
import { line as lineShape } from 'd3-shape';
import type { MeasuredStroke, Measurement } from '../measurement/index.ts';
import { type Language, say } from '../words/index.ts';
import { bottomAxis, leftAxis, type PlotArea, upTitle } from './axes.ts';
import { PLOT_MARGIN_PX, ROW_PX, SMALL_TEXT_PX, WIDTH_RANGE_PX } from './parameters.ts';
import { element, line, svg, textAt } from './svg.ts';

export interface CyclesOptions {
  readonly widthPx: number;
  /** Unique on its page. */
  readonly id: string;
  readonly perBeat: number;
  /** Names of note values; default as in `say`. */
  readonly language?: Language;
}

/** Every stroke of a measurement as SVG text. All rows share one scale, so that they can be compared. */
export function cyclesPicture(measurement: Measurement, options: CyclesOptions): string {
  const widthPx = Math.min(WIDTH_RANGE_PX.most, Math.max(WIDTH_RANGE_PX.least, options.widthPx));
  const cycleCount = 1 + Math.max(0, ...measurement.strokes.map(({ cycle }) => cycle));
  const { left, right, top, bottom } = PLOT_MARGIN_PX;
  const heightPx = top + measurement.places.length * ROW_PX + bottom;
  const across = scaleLinear([1, Math.max(2, cycleCount)], [left + 8, widthPx - right]);
  const ms = errorScale(measurement);
  const areaOf = (row: number): PlotArea => ({ left, right: widthPx - right, top: top + row * ROW_PX + 8, bottom: top + (row + 1) * ROW_PX - 8 });
  const rows = measurement.places.map(({ index, limb }, row) => {
    const strokes = measurement.strokes.filter((stroke) => stroke.index === index);
    return rowOf(strokes, { area: areaOf(row), across, ms, label: `${index + 1} ${limb}` });
  });
  const last = areaOf(measurement.places.length - 1);
  const ticks = across.ticks(Math.min(cycleCount, Math.floor((widthPx - left - right) / 44))).filter(Number.isInteger);
  return svg(
    { widthPx, heightPx, id: options.id, title: titleOf(measurement, options), desc: descOf(measurement, cycleCount) },
    upTitle({ ...areaOf(0), left: 16 }, say({ code: 'picture-cycles-up', params: {} })),
    ...rows,
    bottomAxis(
      { ...last, bottom: last.bottom + 8 },
      ticks.map((cycle) => ({ atPx: across(cycle), label: String(cycle) })),
      say({ code: 'picture-cycles-across', params: {} }),
    ),
  );
}

const titleOf = ({ tempoBpm }: Measurement, { perBeat, language }: CyclesOptions): string =>
  say({ code: 'picture-cycles-title', params: { tempoBpm, perBeat } }, language);

const descOf = ({ places }: Measurement, cycleCount: number): string =>
  say({ code: 'picture-cycles-desc', params: { placeCount: places.length, cycleCount } });

/** From the earliest to the latest stroke, rounded outwards, 0 among the ticks. Ranges are set for each row. */
function errorScale({ strokes }: Measurement) {
  const errors = strokes.flatMap(({ errorMs }) => (errorMs === null ? [] : [errorMs]));
  return scaleLinear([Math.min(-10, ...errors), Math.max(10, ...errors)], [0, 1]).nice(3);
}

interface Row {
  readonly area: PlotArea;
  readonly across: (cycle: number) => number;
  readonly ms: ReturnType<typeof errorScale>;
  readonly label: string;
}

function rowOf(strokes: readonly MeasuredStroke[], { area, across, ms, label }: Row): string {
  const up = ms.copy().range([area.bottom, area.top]);
  const ticks = fewTicks(up.ticks(3)).map((value) => ({ atPx: up(value), label: String(value).replace('-', '−') }));
  const path = lineShape<MeasuredStroke>()
    .defined(({ errorMs }) => errorMs !== null)
    .x(({ cycle }) => across(cycle + 1))
    .y(({ errorMs }) => up(errorMs!))
    .digits(2);
  const missed = strokes.filter(({ status }) => status === 'missed').map(({ cycle }) => cross(across(cycle + 1), area.bottom - 4));
  return element(
    'g',
    { class: 'picture-row' },
    leftAxis(area, ticks),
    textAt(label, { x: 2, y: (area.top + area.bottom) / 2, 'font-size': SMALL_TEXT_PX + 1, 'font-weight': 700, 'dominant-baseline': 'central' }),
    element('path', {
      d: path(strokes) ?? '',
      fill: 'none',
      stroke: 'currentColor',
      'stroke-width': 1.6,
      'stroke-linejoin': 'round',
      'stroke-linecap': 'round',
      class: 'picture-line',
    }),
    ...missed,
  );
}

/** At most four ticks in a row of this height: every other one, 0 among them. */
function fewTicks(ticks: readonly number[]): readonly number[] {
  const step = ticks.length > 1 ? ticks[1]! - ticks[0]! : 1;
  return ticks.length <= 4 ? ticks : ticks.filter((value) => Math.round(value / step) % 2 === 0);
}

const cross = (x: number, y: number): string =>
  element(
    'g',
    { stroke: 'currentColor', 'stroke-width': 1.4, class: 'picture-missed' },
    line([x - 3, y - 3], [x + 3, y + 3]),
    line([x - 3, y + 3], [x + 3, y - 3]),
  );
