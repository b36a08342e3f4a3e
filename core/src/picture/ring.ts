/** The stroke ring: one cycle as a still circle with a notch at 1, letters on their strokes, moved by early and late, sized by volume. */
import { arc } from 'd3-shape';
import type { ExpectedCycle } from '../exercise/index.ts';
import type { Measurement } from '../measurement/index.ts';
import { toNumber } from '../rational.ts';
import { msOfSec, secOfBeats } from '../units.ts';
import { type Language, say } from '../words/index.ts';
import {
  DOUBLING_DB,
  LETTER_LANE_PX,
  LETTER_PX,
  NOTCH_PX,
  RING_MARGIN_PX,
  RING_MOST_PX,
  SECOND_LANE_PX,
  SHIFT_AT_LEAST_MS,
  SHIFT_SHARE,
  SHIFT_TIMES,
  SMALL_TEXT_PX,
  WIDTH_RANGE_PX,
} from './parameters.ts';
import { type RingRow, ringRows } from './ringrows.ts';
import { element, line, svg, textAt } from './svg.ts';

export interface RingOptions {
  /** Room there is; the ring is as wide, up to a limit. */
  readonly widthPx: number;
  /** Unique on its page. */
  readonly id: string;
  /** As it is written, for the title. */
  readonly sticking: string;
  readonly perBeat: number;
  /** Names of note values; default as in `say`. */
  readonly language?: Language;
  /** How many times shifts are drawn; default as many as fit (`ringTimes`). */
  readonly times?: number;
}

/**
 * The stroke ring of a measurement as SVG text.
 *
 * A line across the circle marks where each stroke is written; the thick arc beside it is the 95 % interval of where it came, and the letter
 * stands at its middle. Hands outside, feet inside. Shifts are drawn as many times as fit, and the note below says how many. A stroke never
 * heard is an outlined letter where it is written.
 */
export function ringPicture(measurement: Measurement, cycle: ExpectedCycle, options: RingOptions): string {
  const sizePx = Math.min(RING_MOST_PX, Math.max(WIDTH_RANGE_PX.least, options.widthPx));
  const rows = ringRows(measurement, cycle);
  const cycleMs = cycleMsOf(measurement, cycle);
  const times = options.times ?? shiftTimes(rows, cycleMs);
  const ring: Ring = { rows, centre: sizePx / 2, radius: sizePx / 2 - RING_MARGIN_PX, cycleMs, times };
  const frame = {
    widthPx: sizePx,
    heightPx: sizePx + NOTES_PX,
    id: options.id,
    title: titleOf(measurement, options),
    desc: descOf(rows, measurement),
  };
  return svg(frame, circleWithNotch(ring), ...rows.map((row) => strokeOf(row, ring)), ...notesOf(ring, sizePx));
}

/** How many times the shifts of all these rings can be drawn: rings beside each other are drawn alike. */
export const ringTimes = (measurements: readonly Measurement[], cycle: ExpectedCycle): number =>
  Math.min(...measurements.map((measurement) => shiftTimes(ringRows(measurement, cycle), cycleMsOf(measurement, cycle))));

const cycleMsOf = ({ trackedBpm }: Measurement, cycle: ExpectedCycle): number => msOfSec(secOfBeats(toNumber(cycle.lengthBeats), trackedBpm));

/** Below the ring: how large shifts are drawn, and what the marks beside letters mean when there are any. */
function notesOf({ rows, times, centre }: Ring, topPx: number): readonly string[] {
  const marks = { missed: rows.some(({ missed }) => missed > 0), notAudible: rows.some(({ notAudible }) => notAudible > 0) };
  const notes = [say({ code: 'picture-ring-note', params: { times } }), say({ code: 'picture-ring-marks', params: marks })];
  const look = { x: centre, 'text-anchor': 'middle', 'font-size': SMALL_TEXT_PX, class: 'picture-note' };
  return notes.filter((note) => note !== '').map((note, k) => textAt(note, { ...look, y: topPx + 12 + 17 * k }));
}

interface Ring {
  readonly rows: readonly RingRow[];
  readonly centre: number;
  readonly radius: number;
  readonly cycleMs: number;
  /** How many times shifts are drawn. */
  readonly times: number;
}

/** Where the letter of a stroke stands. */
interface LetterAt {
  readonly ring: Ring;
  readonly lane: number;
  readonly angle: number;
  readonly letterRadius: number;
}

const NOTES_PX = 40;
const FEET = ['K', 'H'];
const MINUS = '−';
/** Small l with a loop, which can be taken neither for a line nor for a 1. */
const SCRIPT_L = 'ℓ';
/** Room of an interval's arc. */
const ARC_PX = 6;

const titleOf = ({ tempoBpm }: Measurement, { sticking, perBeat, language }: RingOptions): string =>
  say({ code: 'picture-ring-title', params: { sticking, tempoBpm, perBeat } }, language);

function descOf(rows: readonly RingRow[], { strokes }: Measurement): string {
  const cycleCount = new Set(strokes.map(({ cycle }) => cycle)).size;
  const feet = rows.some(({ limb }) => FEET.includes(limb));
  return say({
    code: 'picture-ring-desc',
    params: { strokeCount: rows.length, cycleCount, feet, graces: rows.some(({ graceLeadsMs }) => graceLeadsMs.length > 0) },
  });
}

/** The most times that shifts and their intervals can be drawn without a letter coming near its neighbour's place. */
function shiftTimes(rows: readonly RingRow[], cycleMs: number): number {
  const places = [...new Set(rows.map(({ at }) => at))].sort((a, b) => a - b);
  const gaps = places.map((at, k) => (places[k + 1] ?? places[0]! + 1) - at);
  const room = SHIFT_SHARE * cycleMs * Math.min(...gaps);
  const widest = Math.max(SHIFT_AT_LEAST_MS, ...rows.flatMap(({ biasMs, lowMs, highMs }) => [biasMs, lowMs, highMs].map((ms) => Math.abs(ms ?? 0))));
  return SHIFT_TIMES.filter((times) => times * widest <= room).at(-1) ?? SHIFT_TIMES[0];
}

/** The circle as one line that dips inwards at the top. */
function circleWithNotch({ centre, radius }: Ring): string {
  const half = NOTCH_PX.half / radius;
  const [toX, toY] = onCircle(centre, radius, -half);
  const [fromX, fromY] = onCircle(centre, radius, half);
  const dip = `L${centre} ${centre - radius + NOTCH_PX.depth}Z`;
  return element('path', {
    d: `M${round(fromX)} ${round(fromY)}A${radius} ${radius} 0 1 1 ${round(toX)} ${round(toY)}${dip}`,
    fill: 'none',
    stroke: 'currentColor',
    'stroke-width': 1.5,
    'stroke-opacity': 0.6,
    class: 'picture-ring',
  });
}

/** A stroke: where it is written, the range it comes in, its letter, its graces, how often it was missed. */
function strokeOf(row: RingRow, ring: Ring): string {
  const { centre, radius } = ring;
  const written = 2 * Math.PI * row.at;
  const lane = laneOf(row, ring.rows);
  const letterRadius = radius + Math.sign(lane) * (LETTER_LANE_PX + (Math.abs(lane) - 1) * SECOND_LANE_PX);
  const angle = written + shiftAngle(row.biasMs ?? 0, ring);
  const at: LetterAt = { ring, lane, angle, letterRadius };
  return element(
    'g',
    { class: 'picture-stroke', 'data-index': row.index },
    line(onCircle(centre, radius - 5, written), onCircle(centre, radius + 5, written), { stroke: 'currentColor', 'stroke-width': 1 }),
    intervalOf(row, ring, lane),
    ...graces(row, at),
    letter(row, onCircle(centre, letterRadius, angle)),
    ...beside(row, at),
  );
}

/** 1 and on for hands, outwards; −1 and on for feet, inwards; the second of two in the same place stands one further. */
function laneOf(row: RingRow, rows: readonly RingRow[]): number {
  const side = (limb: string) => (FEET.includes(limb) ? -1 : 1);
  const before = rows.filter((other) => other.index < row.index && other.at === row.at && side(other.limb) === side(row.limb)).length;
  return side(row.limb) * (1 + before);
}

/** The 95 % interval as a thick arc on the letter's side of the line, one further out for a second letter in the same place. */
function intervalOf({ at, lowMs, highMs }: RingRow, ring: Ring, lane: number): string {
  if (lowMs === null || highMs === null) return '';
  const middle = ring.radius + Math.sign(lane) * (ARC_PX * Math.abs(lane) - 1);
  const shape = arc<null>()
    .innerRadius(middle - ARC_PX / 2 + 0.5)
    .outerRadius(middle + ARC_PX / 2 - 0.5)
    .startAngle(2 * Math.PI * at + shiftAngle(lowMs, ring))
    .endAngle(2 * Math.PI * at + shiftAngle(highMs, ring))
    .digits(2);
  return element('path', {
    d: shape(null) ?? '',
    transform: `translate(${ring.centre} ${ring.centre})`,
    'fill-opacity': 0.55,
    class: 'picture-interval',
  });
}

const shiftAngle = (ms: number, { cycleMs, times }: Ring): number => (2 * Math.PI * ms * times) / cycleMs;

/** A letter; outlined when its stroke was never heard, in parentheses when it is a ghost note. */
function letter(row: RingRow, [x, y]: readonly [number, number]): string {
  const never = row.heard === 0;
  return textAt(row.ghost ? `(${row.limb})` : row.limb, {
    x,
    y,
    'font-size': letterPx(row),
    'font-weight': 700,
    'text-anchor': 'middle',
    'dominant-baseline': 'central',
    class: never ? 'picture-letter picture-never' : 'picture-letter',
    ...(never ? { fill: 'none', stroke: 'currentColor', 'stroke-width': 0.9 } : {}),
  });
}

const letterPx = ({ volumeDb }: RingRow): number =>
  Math.min(LETTER_PX.most, Math.max(LETTER_PX.least, LETTER_PX.ordinary * 2 ** ((volumeDb ?? 0) / DOUBLING_DB)));

/** How often it was missed, or that it could not be heard: beyond the letter, or after it where another letter stands beyond. */
function beside(row: RingRow, { ring, lane, angle, letterRadius }: LetterAt): readonly string[] {
  const marks = [...(row.missed > 0 ? [`${MINUS}${row.missed}`] : []), ...(row.notAudible > 0 ? ['?'] : [])];
  if (marks.length === 0) return [];
  const offPx = letterPx(row) * 0.45 + SMALL_TEXT_PX * 0.75;
  const shared = ring.rows.some((other) => other.index !== row.index && other.at === row.at && FEET.includes(other.limb) === FEET.includes(row.limb));
  const [x, y] = shared
    ? onCircle(ring.centre, letterRadius, angle + (offPx + SMALL_TEXT_PX * 0.3) / letterRadius)
    : onCircle(ring.centre, letterRadius + Math.sign(lane) * offPx, angle);
  const look = { 'font-size': SMALL_TEXT_PX - 1, 'text-anchor': 'middle', 'dominant-baseline': 'central' };
  return [textAt(marks.join(' '), { x, y, ...look, class: 'picture-count' })];
}

/** Grace strokes as small letters of the other hand, just before the main letter: at this size their true distance could not be read. */
function graces(row: RingRow, { ring, angle, letterRadius }: LetterAt): readonly string[] {
  const other = row.limb === 'R' ? SCRIPT_L : 'r';
  const sizePx = LETTER_PX.least + 4;
  return row.graceLeadsMs.map((_, k, all) => {
    const clearPx = letterPx(row) * 0.42 + sizePx * (0.4 + 0.6 * (all.length - 1 - k));
    const [x, y] = onCircle(ring.centre, letterRadius, angle - clearPx / letterRadius);
    // In a fixed-width face an l has feet and cannot be taken for a line.
    const look = {
      'font-family': 'ui-monospace, monospace',
      'font-size': sizePx,
      'font-weight': 600,
      'text-anchor': 'middle',
      'dominant-baseline': 'central',
    };
    return textAt(other, { x, y, ...look, class: 'picture-grace' });
  });
}

/** The point at an angle from the top, clockwise. */
const onCircle = (centre: number, radius: number, angle: number): [number, number] => [
  centre + radius * Math.sin(angle),
  centre - radius * Math.cos(angle),
];

const round = (value: number): number => Math.round(value * 100) / 100;
