/** Clean tempo over days: a mark with its interval for each day that has one, on ordinary axes with dates. */
import { scaleLinear } from 'd3-scale';
import { addDays, dayNumber, dayOfNumber, daysBetween } from '../day.ts';
import type { CurvePoint } from '../progress/index.ts';
import type { CleanTempo } from '../tempo/index.ts';
import { type Language, say } from '../words/index.ts';
import { bottomAxis, leftAxis, type PlotArea, type Tick, upTitle } from './axes.ts';
import { DAY_LABEL_PX, DAY_STEPS, PLOT_MARGIN_PX, SMALL_TEXT_PX, TEMPO_HEIGHT, WIDTH_RANGE_PX } from './parameters.ts';
import { element, line, svg, textAt } from './svg.ts';

/** A day from which something is different: other sticks, another pedal, a new teacher. */
export interface ChangeMark {
  readonly day: string;
  readonly label: string;
}

export interface TempoPlotOptions {
  readonly widthPx: number;
  /** Unique on its page. */
  readonly id: string;
  readonly perBeat: number;
  /** Tempo that is wanted. */
  readonly goalBpm?: number;
  /** Names of note values; default as in `say`. */
  readonly language?: Language;
  readonly changes?: readonly ChangeMark[];
}

/** Height of a row of labels of change marks, of which there are two. */
const CHANGE_ROW_PX = 15;

interface KnownPoint {
  readonly day: string;
  readonly heard: boolean;
  readonly estimate: CleanTempo;
}

/** The clean tempo of one exercise as SVG text. Without any known point it says so instead of drawing axes. */
export function tempoPicture(points: readonly CurvePoint[], options: TempoPlotOptions): string {
  const widthPx = Math.min(WIDTH_RANGE_PX.most, Math.max(WIDTH_RANGE_PX.least, options.widthPx));
  const heightPx = Math.min(TEMPO_HEIGHT.most, Math.max(TEMPO_HEIGHT.least, widthPx * TEMPO_HEIGHT.share));
  const known = points.flatMap(({ day, heard, estimate }) => (estimate.known ? [{ day, heard, estimate }] : []));
  const unknown = points.filter(({ estimate }) => !estimate.known).map(({ day }) => day);
  const title = say({ code: 'picture-tempo-title', params: {} });
  const desc = say({ code: 'picture-tempo-desc', params: { pointCount: known.length, unknownCount: unknown.length } });
  const frame = { widthPx, heightPx, id: options.id, title, desc };
  if (known.length === 0) return svg(frame, emptyNote(widthPx, heightPx));
  const { left, right, top, bottom } = PLOT_MARGIN_PX;
  const changes = options.changes ?? [];
  const area: PlotArea = { left, right: widthPx - right, top: top + CHANGE_ROW_PX * Math.min(2, changes.length), bottom: heightPx - bottom };
  const days = [...points, ...changes].map(({ day }) => day).sort();
  const [from, to] = [days[0]!, days.at(-1)!];
  const up = tempoScale(known, options.goalBpm, area);
  const across = scaleLinear([dayNumber(from) - 1, dayNumber(to) + 1], [area.left, area.right]);
  const xOf = (day: string) => across(dayNumber(day));
  return svg(
    frame,
    upTitle({ ...area, top, left: 10 }, say({ code: 'picture-tempo-up', params: { perBeat: options.perBeat } }, options.language)),
    leftAxis(
      area,
      up.ticks(5).map((bpm) => ({ atPx: up(bpm), label: String(bpm) })),
    ),
    bottomAxis(area, dayTicks(from, to, { xOf, roomPx: area.right - area.left }), ''),
    ...(options.goalBpm === undefined ? [] : [goalLine(options.goalBpm, up(options.goalBpm), area)]),
    ...changes.map((change, k) => changeMark(change, { x: xOf(change.day), area, row: k % 2 })),
    ...unknown.map((day) =>
      line([xOf(day), area.bottom - 7], [xOf(day), area.bottom], { stroke: 'currentColor', 'stroke-width': 1.5, class: 'picture-unknown' }),
    ),
    ...known.map((point) => pointOf(point, xOf(point.day), up)),
  );
}

const emptyNote = (widthPx: number, heightPx: number): string =>
  textAt(say({ code: 'picture-tempo-none', params: {} }), {
    x: widthPx / 2,
    y: heightPx / 2,
    'font-size': SMALL_TEXT_PX + 2,
    'text-anchor': 'middle',
  });

/** From the lowest to the highest end of an interval, and the tempo wanted, rounded outwards. */
function tempoScale(known: readonly KnownPoint[], goalBpm: number | undefined, area: PlotArea) {
  const ends = known.flatMap(({ estimate }) => [estimate.low90, estimate.high90]).concat(goalBpm ?? []);
  return scaleLinear([Math.min(...ends), Math.max(...ends)], [area.bottom - 12, area.top]).nice(5);
}

/** Dates so many days apart that their labels fit, the year where it is new. */
function dayTicks(from: string, to: string, { xOf, roomPx }: { readonly xOf: (day: string) => number; readonly roomPx: number }): readonly Tick[] {
  const days = daysBetween(from, to);
  const most = Math.max(2, Math.floor(roomPx / DAY_LABEL_PX));
  const step = DAY_STEPS.find((each) => Math.floor(days / each) + 1 <= most) ?? DAY_STEPS.at(-1)!;
  return Array.from({ length: Math.floor(days / step) + 1 }, (_, k) => addDays(from, k * step)).map((day, k) => {
    const withYear = k === 0 || day.slice(0, 4) !== dayOfNumber(dayNumber(day) - step).slice(0, 4);
    return { atPx: xOf(day), label: say({ code: 'picture-day', params: { day, withYear } }) };
  });
}

/** Radius of a mark. */
const MARK_PX = 4;

/** A mark in the middle of its interval; open when it rests on the player's word. */
function pointOf({ heard, estimate }: KnownPoint, x: number, up: (bpm: number) => number): string {
  const [low, middle, high] = [up(estimate.low90), up(estimate.median), up(estimate.high90)];
  const bar = { stroke: 'currentColor', 'stroke-width': 1.3 };
  return element(
    'g',
    { class: 'picture-point' },
    line([x, low], [x, Math.min(low, middle + MARK_PX)], bar),
    line([x, Math.max(high, middle - MARK_PX)], [x, high], bar),
    line([x - 4, low], [x + 4, low], bar),
    line([x - 4, high], [x + 4, high], bar),
    element('circle', {
      cx: x,
      cy: middle,
      r: MARK_PX,
      ...(heard ? {} : { fill: 'none', stroke: 'currentColor', 'stroke-width': 1.6 }),
      class: heard ? 'picture-heard' : 'picture-word',
    }),
  );
}

function goalLine(goalBpm: number, y: number, area: PlotArea): string {
  const dashed = { stroke: 'currentColor', 'stroke-width': 1.2, 'stroke-dasharray': '6 4' };
  return element(
    'g',
    { class: 'picture-wanted' },
    line([area.left, y], [area.right, y], dashed),
    textAt(say({ code: 'picture-tempo-wanted', params: { goalBpm } }), { x: area.left + 6, y: y + 15, 'font-size': SMALL_TEXT_PX }),
  );
}

/** A dotted line from the day on which something changed, its label above the plot, every other one a line higher. */
function changeMark({ label }: ChangeMark, { x, area, row }: { readonly x: number; readonly area: PlotArea; readonly row: number }): string {
  const atEnd = x > (area.left + area.right) / 2;
  return element(
    'g',
    { class: 'picture-change' },
    line([x, area.top - 2 - CHANGE_ROW_PX * row], [x, area.bottom], { stroke: 'currentColor', 'stroke-width': 1.2, 'stroke-dasharray': '1.5 3.5' }),
    textAt(label, {
      x: atEnd ? x - 4 : x + 4,
      y: area.top - 5 - CHANGE_ROW_PX * row,
      'font-size': SMALL_TEXT_PX,
      'text-anchor': atEnd ? 'end' : 'start',
    }),
  );
}
