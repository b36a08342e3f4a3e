/** The whole diary in one picture: a row of time with months, a lane for each phrase, and what lies between, each told below by its number. */
import { addMonths, dayNumber } from '../day.ts';
import type { KnownTempo, LaneMove, WholeDiary } from '../progress/index.ts';
import { type Language, say } from '../words/index.ts';
import { bottomAxis, type Tick } from './axes.ts';
import { dayTicks } from './daysplot.ts';
import { LANE_PX, MONTH_LABEL_PX, MONTH_STEPS, SMALL_TEXT_PX, WHOLE_PX, WIDTH_RANGE_PX } from './parameters.ts';
import { element, line, svg, textAt } from './svg.ts';
import { headOf, headRows, type LaneDrawn, type LaneRoom, laneHeight, laneOf, tempoSpan } from './wholelane.ts';
import { happenings, markOf, numberRows, toldBelow, unnumbered } from './wholemarks.ts';

export interface WholePlotOptions {
  readonly widthPx: number;
  /** Unique on its page. */
  readonly id: string;
  /** Clean tempi by the id of the sticking point (`laneTempi`); a phrase without any has a lane without a line. */
  readonly tempi: ReadonlyMap<string, readonly KnownTempo[]>;
  /** Standstills and jumps by the id of the sticking point (`laneMoves`); none unless said. */
  readonly moves?: ReadonlyMap<string, readonly LaneMove[]>;
  /** Names of note values; default as in `say`. */
  readonly language?: Language;
}

/** The picture as SVG text, as high as it needs to be. */
export function wholePicture(whole: WholeDiary, options: WholePlotOptions): string {
  const { id, language } = options;
  const widthPx = Math.min(WIDTH_RANGE_PX.most, Math.max(WIDTH_RANGE_PX.least, options.widthPx));
  const drawn = whole.lanes.map(
    (lane): LaneDrawn => ({
      lane,
      tempi: options.tempi.get(lane.stickingPointId) ?? [],
      moves: (options.moves?.get(lane.stickingPointId) ?? []).filter(({ from, to }) => from <= whole.to && to >= whole.from),
    }),
  );
  const room = roomFor(whole, drawn, { widthPx, language });
  const numbered = numberRows(happenings(whole), room.xOf);
  const first = 4 + numbered.rows * WHOLE_PX.numberRow;
  const bottom = first + drawn.length * laneStep(room);
  const area = { left: room.left, right: room.right, top: first, bottom };
  const told = toldBelow(numbered.marks, { top: bottom + WHOLE_PX.axis + WHOLE_PX.gap, widthPx, language, more: unnumbered(whole), drawn });
  const { from, to, lanes, away, changes, lessons } = whole;
  const counts = { phrases: lanes.length, away: away.length, changes: changes.length, lessons: lessons.length };
  return svg(
    {
      ...{ widthPx, id, heightPx: told.bottom },
      title: say({ code: 'picture-whole-title', params: { from, to } }),
      desc: say({ code: 'picture-whole-desc', params: counts }),
    },
    ...numbered.marks.map((mark) => markOf(mark, { top: 4, lanesTop: first, bottom, xOf: room.xOf })),
    ...monthLines(whole, room, area),
    ...drawn.map((one, k) => laneOf(one, first + k * laneStep(room), room)),
    timeAxis(whole, room, area),
    ...told.texts,
  );
}

const laneStep = ({ rows, heightPx }: LaneRoom): number => rows * WHOLE_PX.row + 3 + heightPx + WHOLE_PX.gap;

function roomFor(
  { from, to, lanes, away }: WholeDiary,
  drawn: readonly LaneDrawn[],
  { widthPx, language }: { readonly widthPx: number; readonly language: Language | undefined },
): LaneRoom {
  const heightPx = laneHeight(lanes.length);
  const left = heightPx < LANE_PX.axisFrom ? WHOLE_PX.bareLeft : WHOLE_PX.left;
  const right = widthPx - WHOLE_PX.right;
  const [first, days] = [dayNumber(from), dayNumber(to) + 1 - dayNumber(from)];
  const xOf = (day: string, part = 0) => left + ((right - left) * Math.min(days, Math.max(0, dayNumber(day) + part - first))) / days;
  const rows = headRows(
    drawn.map((one) => headOf(one, language)),
    right - WHOLE_PX.bareLeft,
  );
  return { ...{ left, right, heightPx, rows, from, to, xOf, language, away }, span: tempoSpan(drawn) };
}

interface Area {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** First days of the months in a span. */
function monthsIn({ from, to }: Pick<WholeDiary, 'from' | 'to'>): readonly string[] {
  const first = addMonths(`${from.slice(0, 7)}-01`, from.endsWith('-01') ? 0 : 1);
  const count = 12 * (Number(to.slice(0, 4)) - Number(first.slice(0, 4))) + Number(to.slice(5, 7)) - Number(first.slice(5, 7)) + 1;
  return Array.from({ length: Math.max(0, count) }, (_, k) => addMonths(first, k));
}

/** Those that are labelled: so many months apart that their labels fit, in step with the year. */
function labelled(months: readonly string[], roomPx: number): readonly string[] {
  const each = roomPx / Math.max(1, months.length);
  const step = MONTH_STEPS.find((one) => one * each >= MONTH_LABEL_PX) ?? MONTH_STEPS.at(-1)!;
  return months.filter((month) => (12 * Number(month.slice(0, 4)) + Number(month.slice(5, 7)) - 1) % step === 0);
}

/** Where fewer months begin, days are labelled. */
const FEWEST_MONTHS = 3;

function monthLines(whole: WholeDiary, { xOf, right, left }: LaneRoom, { top, bottom }: Area): readonly string[] {
  return labelled(monthsIn(whole), right - left).map((month) =>
    line([xOf(month), top], [xOf(month), bottom], { stroke: 'currentColor', 'stroke-opacity': 0.12, 'stroke-width': 1 }),
  );
}

/** Months below the lanes, the year under the first of each. */
function timeAxis(whole: WholeDiary, { xOf, left, right }: LaneRoom, area: Area): string {
  const months = monthsIn(whole);
  const roomPx = right - left;
  if (months.length < FEWEST_MONTHS) return bottomAxis(area, dayTicks(whole.from, whole.to, { xOf, roomPx }), '');
  const shown = labelled(months, roomPx);
  const ticks = shown.map((month): Tick => ({ atPx: xOf(month), label: say({ code: 'picture-month', params: { day: month } }) }));
  const years = shown.filter((month, k) => k === 0 || month.slice(0, 4) !== shown[k - 1]!.slice(0, 4));
  return element(
    'g',
    { class: 'picture-time' },
    bottomAxis(area, ticks, ''),
    element(
      'g',
      { class: 'picture-years' },
      ...years.map((month) => textAt(month.slice(0, 4), { x: xOf(month), y: area.bottom + 31, 'font-size': SMALL_TEXT_PX, 'text-anchor': 'middle' })),
    ),
  );
}
