/** Figures over days: a mark with its interval for each day that has one, on ordinary axes with dates. */
import { scaleLinear } from 'd3-scale';
import { addDays, dayNumber, daysBetween } from '../day.ts';
import { say } from '../words/index.ts';
import { bottomAxis, leftAxis, type PlotArea, type Tick, upTitle } from './axes.ts';
import { cutTo } from './lines.ts';
import { DAY_LABEL_PX, DAY_STEPS, SMALL_LETTER_PX as LETTER_PX, PLOT_MARGIN_PX, SMALL_TEXT_PX, TEMPO_HEIGHT, WIDTH_RANGE_PX } from './parameters.ts';
import { element, line, svg, textAt } from './svg.ts';

/** A day from which something is different: other sticks, another pedal, a new teacher. */
export interface ChangeMark {
  readonly day: string;
  readonly label: string;
}

/** A figure of a day with its interval. */
export interface DayMark {
  readonly day: string;
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** An open mark rests on the player's word alone. */
  readonly open?: boolean;
}

export interface DaysPlot {
  readonly widthPx: number;
  /** Unique on its page. */
  readonly id: string;
  readonly title: string;
  readonly desc: string;
  /** What the upright axis counts. */
  readonly up: string;
  /** What stands in place of axes when there is no mark. */
  readonly none: string;
  readonly marks: readonly DayMark[];
  /** Days that have no figure: a short line at the foot. */
  readonly unknownDays: readonly string[];
  /** A value that marks are held against, with its name. */
  readonly wanted?: { readonly value: number; readonly label: string };
  readonly changes: readonly ChangeMark[];
}

/** Height of a row of labels of change marks, of which there are two. */
const CHANGE_ROW_PX = 15;

/** The plot as SVG text. Without any mark it says so instead of drawing axes. */
export function daysPicture(plot: DaysPlot): string {
  const widthPx = Math.min(WIDTH_RANGE_PX.most, Math.max(WIDTH_RANGE_PX.least, plot.widthPx));
  const heightPx = Math.min(TEMPO_HEIGHT.most, Math.max(TEMPO_HEIGHT.least, widthPx * TEMPO_HEIGHT.share));
  const { id, title, desc, marks, unknownDays, wanted, changes } = plot;
  const frame = { widthPx, heightPx, id, title, desc };
  if (marks.length === 0) return svg(frame, emptyNote(plot.none, widthPx, heightPx));
  const { left, right, top, bottom } = PLOT_MARGIN_PX;
  const area: PlotArea = { left, right: widthPx - right, top: top + CHANGE_ROW_PX * Math.min(2, changes.length), bottom: heightPx - bottom };
  const days = [...marks.map(({ day }) => day), ...unknownDays, ...changes.map(({ day }) => day)].sort();
  const [from, to] = [days[0]!, days.at(-1)!];
  const radius = Math.min(MARK_PX.most, Math.max(MARK_PX.least, ((area.right - area.left) / marks.length) * MARK_PX.share));
  const up = valueScale(marks, wanted?.value, area);
  const across = scaleLinear([dayNumber(from) - 1, dayNumber(to) + 1], [area.left, area.right]);
  const xOf = (day: string) => across(dayNumber(day));
  return svg(
    frame,
    upTitle({ ...area, top, left: 10 }, plot.up),
    leftAxis(
      area,
      up.ticks(5).map((value) => ({ atPx: up(value), label: String(value).replace('-', '−') })),
    ),
    bottomAxis(area, dayTicks(from, to, { xOf, roomPx: area.right - area.left }), ''),
    ...(wanted ? [wantedLine(wanted.label, up(wanted.value), { area, taken: takenBy(plot, { xOf, up, area }) })] : []),
    ...changes.map((change, k) => changeMark(change, { x: xOf(change.day), area, row: k % 2 })),
    ...unknownDays.map((day) =>
      line([xOf(day), area.bottom - 7], [xOf(day), area.bottom], { stroke: 'currentColor', 'stroke-width': 1.5, class: 'picture-unknown' }),
    ),
    ...marks.map((mark) => markOf(mark, { x: xOf(mark.day), up, radius })),
  );
}

const emptyNote = (none: string, widthPx: number, heightPx: number): string =>
  textAt(none, {
    x: widthPx / 2,
    y: heightPx / 2,
    'font-size': SMALL_TEXT_PX + 2,
    'text-anchor': 'middle',
  });

/** From the lowest to the highest end of an interval, and the value wanted, rounded outwards. */
function valueScale(marks: readonly DayMark[], wanted: number | undefined, area: PlotArea) {
  const ends = marks.flatMap(({ low, high }) => [low, high]).concat(wanted ?? []);
  return scaleLinear([Math.min(...ends), Math.max(...ends)], [area.bottom - 12, area.top]).nice(5);
}

/** Dates so many days apart that their labels fit, the year where it is new. */
export function dayTicks(
  from: string,
  to: string,
  { xOf, roomPx }: { readonly xOf: (day: string) => number; readonly roomPx: number },
): readonly Tick[] {
  const days = daysBetween(from, to);
  const most = Math.max(2, Math.floor(roomPx / DAY_LABEL_PX));
  const step = DAY_STEPS.find((each) => Math.floor(days / each) + 1 <= most) ?? DAY_STEPS.at(-1)!;
  return Array.from({ length: Math.floor(days / step) + 1 }, (_, k) => addDays(from, k * step)).map((day, k) => {
    const withYear = k === 0 || day.slice(0, 4) !== addDays(day, -step).slice(0, 4);
    return { atPx: xOf(day), label: say({ code: 'picture-day', params: { day, withYear } }) };
  });
}

/** What stands in the plot, px: the interval of each mark, and the line of each change. */
function takenBy(
  { marks, changes }: DaysPlot,
  { xOf, up, area }: { readonly xOf: (day: string) => number; readonly up: (value: number) => number; readonly area: PlotArea },
): readonly Upright[] {
  return [
    ...marks.map(({ day, low, high }) => ({ x: xOf(day), top: up(high), bottom: up(low) })),
    ...changes.map(({ day }) => ({ x: xOf(day), top: area.top, bottom: area.bottom })),
  ];
}

interface Upright {
  readonly x: number;
  readonly top: number;
  readonly bottom: number;
}

/** Radius of a mark: so much of the room between two of them, if they were spread evenly. */
const MARK_PX = { least: 2, most: 4, share: 0.45 } as const;

/** A mark in the middle of its interval; open when it rests on the player's word. */
function markOf(mark: DayMark, { x, up, radius }: { readonly x: number; readonly up: (value: number) => number; readonly radius: number }): string {
  const [low, middle, high] = [up(mark.low), up(mark.value), up(mark.high)];
  // Where marks are many and the room is small, ends of intervals would run into one band.
  const crowded = radius <= MARK_PX.least;
  const bar = { stroke: 'currentColor', 'stroke-width': crowded ? 0.8 : 1.3, 'stroke-opacity': crowded ? 0.6 : undefined };
  const ends = crowded ? [] : [low, high].map((end) => line([x - radius, end], [x + radius, end], bar));
  return element(
    'g',
    { class: 'picture-point' },
    line([x, low], [x, Math.min(low, middle + radius)], bar),
    line([x, Math.max(high, middle - radius)], [x, high], bar),
    ...ends,
    element('circle', {
      cx: x,
      cy: middle,
      r: radius,
      ...(!mark.open ? {} : { fill: 'none', stroke: 'currentColor', 'stroke-width': 1.6 }),
      class: mark.open ? 'picture-word' : 'picture-heard',
    }),
  );
}

/** A dashed line; its name stands where least is in its way, above or below it at either end, inside the plot. */
function wantedLine(label: string, y: number, { area, taken }: { readonly area: PlotArea; readonly taken: readonly Upright[] }): string {
  const dashed = { stroke: 'currentColor', 'stroke-width': 1.2, 'stroke-dasharray': '6 4' };
  const widthPx = label.length * LETTER_PX;
  const places = [area.left + 6, area.right - 6 - widthPx].flatMap((x) => [y + 15, y - 5].map((baseline) => ({ x, baseline })));
  const inside = places.filter(({ baseline }) => baseline - SMALL_TEXT_PX > area.top && baseline < area.bottom - 8);
  const inTheWay = ({ x, baseline }: (typeof places)[number]) =>
    taken.filter((one) => one.x > x - 4 && one.x < x + widthPx + 4 && one.top < baseline + 2 && one.bottom > baseline - SMALL_TEXT_PX).length;
  const { x, baseline } = [...inside, places[0]!].reduce((best, place) => (inTheWay(place) < inTheWay(best) ? place : best));
  return element(
    'g',
    { class: 'picture-wanted' },
    line([area.left, y], [area.right, y], dashed),
    textAt(label, { x, y: baseline, 'font-size': SMALL_TEXT_PX }),
  );
}

/** A dotted line from the day on which something changed, its label above the plot on the side that has more room, every other one a line higher. */
function changeMark({ label }: ChangeMark, { x, area, row }: { readonly x: number; readonly area: PlotArea; readonly row: number }): string {
  const atEnd = x > (area.left + area.right) / 2;
  const roomPx = (atEnd ? x : area.right + PLOT_MARGIN_PX.right - x) - 4;
  return element(
    'g',
    { class: 'picture-change' },
    line([x, area.top - 2 - CHANGE_ROW_PX * row], [x, area.bottom], { stroke: 'currentColor', 'stroke-width': 1.2, 'stroke-dasharray': '1.5 3.5' }),
    textAt(cutTo(label, Math.floor(roomPx / LETTER_PX)), {
      x: atEnd ? x - 4 : x + 4,
      y: area.top - 5 - CHANGE_ROW_PX * row,
      'font-size': SMALL_TEXT_PX,
      'text-anchor': atEnd ? 'end' : 'start',
    }),
  );
}
