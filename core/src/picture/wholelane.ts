/** A phrase as a lane in the picture of the whole diary: its name and how it stands, its clean tempo as a line, the tempo wanted. */
import { type ScaleLinear, scaleLinear } from 'd3-scale';
import type { DaysWithout, KnownTempo, LaneMove, PhraseLane } from '../progress/index.ts';
import { type Language, say } from '../words/index.ts';
import { leftAxis } from './axes.ts';
import { cutTo } from './lines.ts';
import { LANE_PX, SMALL_LETTER_PX, SMALL_TEXT_PX, WHOLE_PX } from './parameters.ts';
import { element, line, textAt } from './svg.ts';

/** A lane with the clean tempi that its line goes through. */
export interface LaneDrawn {
  readonly lane: PhraseLane;
  readonly tempi: readonly KnownTempo[];
  /** Where it stood still, and where it jumped. */
  readonly moves: readonly LaneMove[];
}

/** Where lanes stand, and how high they are. */
export interface LaneRoom {
  readonly left: number;
  readonly right: number;
  readonly heightPx: number;
  /** Rows of text above each. */
  readonly rows: 1 | 2;
  /** First and last day of the picture: what lies outside is not drawn. */
  readonly from: string;
  readonly to: string;
  /** Left edge of a day, or so much of it further, px; days outside the picture lie at its edges. */
  readonly xOf: (day: string, part?: number) => number;
  readonly language: Language | undefined;
  /** Lowest and highest tempo of all lanes, so that as much is as high in each; null where none is known. */
  readonly span: readonly [low: number, high: number] | null;
  /** The line is not drawn across these. */
  readonly away: readonly DaysWithout[];
}

/** Name, and what became of it, as two texts. */
export function headOf({ lane, tempi }: LaneDrawn, language?: Language): readonly [name: string, stands: string] {
  const [first, last] = [tempi[0], tempi.at(-1)];
  const tempo = { firstBpm: Math.round(first?.median ?? 0), lastBpm: Math.round(last?.median ?? 0), wantedBpm: lane.wantedBpm };
  const state = { is: lane.state?.is ?? 'open', day: lane.state?.day ?? '' };
  const stands = say({ code: 'picture-lane', params: { ...tempo, ...state, perBeat: lane.perBeat, known: first !== undefined } }, language);
  return [lane.name || lane.sticking, stands];
}

/** Height of a lane among so many. */
export const laneHeight = (count: number): number => LANE_PX.heights.find(({ most }) => count <= most)!.px;

/** Rows of text above each of some lanes: two where they are few, or where one does not hold both. */
export const headRows = (heads: readonly (readonly [string, string])[], roomPx: number): 1 | 2 =>
  heads.length > LANE_PX.heights[0].most && heads.every(([name, stands]) => widthOf(`${name}  ${stands}`) <= roomPx) ? 1 : 2;

/** The lane with its head above it. @param top upper edge of the head. */
export function laneOf(drawn: LaneDrawn, top: number, room: LaneRoom): string {
  const { lane, tempi, moves } = drawn;
  const { heightPx, xOf, left, right, from, to } = room;
  const area = {
    left: xOf(lane.from),
    right: xOf(lane.to, 1),
    top: top + room.rows * WHOLE_PX.row + 3,
    bottom: top + room.rows * WHOLE_PX.row + 3 + heightPx,
  };
  const up = tempi.length > 0 && room.span ? tempoScale(room.span, area) : null;
  const played = { fill: 'currentColor', 'fill-opacity': 0.06, stroke: 'none' };
  return element(
    'g',
    { class: 'picture-lane' },
    ...headAt(drawn, { top, x: area.left, room }),
    ...(up && heightPx >= LANE_PX.axisFrom
      ? [
          leftAxis(
            { ...area, left, right },
            up.domain().map((bpm) => ({ atPx: up(bpm), label: String(bpm) })),
          ),
        ]
      : []),
    element('rect', { x: area.left, y: area.top, width: area.right - area.left, height: heightPx, ...played, class: 'picture-span' }),
    ...[...(lane.from >= from ? [area.left] : []), ...(lane.state && lane.state.is !== 'open' && lane.to <= to ? [area.right] : [])].map((x) =>
      line([x, area.top], [x, area.bottom], { stroke: 'currentColor', 'stroke-width': 1.6, class: 'picture-end' }),
    ),
    ...(up
      ? [
          wantedAt(up(lane.wantedBpm), area),
          tempoLine(
            tempi.filter(({ day }) => day >= from && day <= to),
            { up, room },
          ),
        ]
      : []),
    ...moves.map((move) => moveAt(move, area, xOf)),
  );
}

interface Area {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** From the lowest tempo of all lanes to the highest, and those wanted; null where no tempo is known. */
export function tempoSpan(drawn: readonly LaneDrawn[]): LaneRoom['span'] {
  const all = drawn.flatMap(({ lane, tempi }) => (tempi.length === 0 ? [] : [...tempi.map(({ median }) => median), lane.wantedBpm]));
  return all.length === 0 ? null : [Math.min(...all), Math.max(...all)];
}

/** Rounded outwards. */
const tempoScale = (span: readonly [number, number], { top, bottom }: Area): ScaleLinear<number, number> =>
  scaleLinear(span, [bottom - 3, top + 3]).nice(4);

/** A standstill is a bar at the foot of the lane, a jump a triangle there. */
function moveAt({ is, from, to }: LaneMove, { bottom }: Area, xOf: LaneRoom['xOf']): string {
  if (is === 'stood') return element('rect', { x: xOf(from), y: bottom - 5, width: xOf(to, 1) - xOf(from), height: 4, class: 'picture-stood' });
  const x = xOf(from, 0.5);
  const d = `M${(x - 5).toFixed(2)},${(bottom - 1).toFixed(2)}l10,0l-5,-9z`;
  return element('path', { d, class: 'picture-jump' });
}

const wantedAt = (y: number, { left, right }: Area): string =>
  line([left, y], [right, y], { stroke: 'currentColor', 'stroke-width': 1.2, 'stroke-dasharray': '5 4', class: 'picture-wanted' });

/** Through what was known at the end of some days, in the middle of each, faint across days away; a point at either end. */
function tempoLine(
  tempi: readonly KnownTempo[],
  { up, room: { xOf, away } }: { readonly up: (bpm: number) => number; readonly room: Pick<LaneRoom, 'xOf' | 'away'> },
): string {
  const at = tempi.map(({ day, median }) => [xOf(day, 0.5), up(median)] as const);
  if (at.length === 0) return '';
  const isBroken = (k: number) => away.some(({ from, to }) => from > tempi[k - 1]!.day && to < tempi[k]!.day);
  const point = (k: number) => `${at[k]![0].toFixed(2)},${at[k]![1].toFixed(2)}`;
  const path = at.map((_, k) => `${k === 0 || isBroken(k) ? 'M' : 'L'}${point(k)}`).join('');
  const over = at.flatMap((_, k) => (k > 0 && isBroken(k) ? [`M${point(k - 1)}L${point(k)}`] : [])).join('');
  const ends = [at[0]!, ...(at.length > 1 ? [at.at(-1)!] : [])];
  return element(
    'g',
    {},
    ...(over === ''
      ? []
      : [element('path', { d: over, fill: 'none', stroke: 'currentColor', 'stroke-width': 1, 'stroke-dasharray': '1 3', class: 'picture-over' })]),
    element('path', { d: path, fill: 'none', stroke: 'currentColor', 'stroke-width': 2.2, 'stroke-linejoin': 'round', class: 'picture-line' }),
    ...ends.map(([x, y]) => element('path', { d: `M${(x - 3).toFixed(2)},${y.toFixed(2)}a3,3 0 1,0 6,0a3,3 0 1,0 -6,0`, class: 'picture-known' })),
  );
}

const widthOf = (text: string): number => text.length * SMALL_LETTER_PX * NAME_WIDER;
/** Names are bold. Assumption. */
const NAME_WIDER = 1.06;

/** Name and stand where the lane begins, or as far right as they fit. */
function headAt(drawn: LaneDrawn, { top, x, room }: { readonly top: number; readonly x: number; readonly room: LaneRoom }): readonly string[] {
  const { rows, left, right, language } = room;
  const [name, stands] = headOf(drawn, language);
  const leftPx = left === WHOLE_PX.left ? WHOLE_PX.bareLeft : left;
  const startAt = (text: string) => Math.max(leftPx, Math.min(x, right - widthOf(text)));
  const shown = (text: string, wider = 1) => cutTo(text, Math.floor((right - leftPx) / (SMALL_LETTER_PX * wider)));
  const text = (of: string, at: number, row: number, more: object) =>
    textAt(of, { x: at, y: top + row * WHOLE_PX.row - 3, 'font-size': SMALL_TEXT_PX, ...more });
  const bold = { 'font-weight': 600, class: 'picture-name' };
  if (rows === 2) {
    const at = startAt(name.length > stands.length ? name : stands);
    return [text(shown(name, NAME_WIDER), at, 1, bold), text(shown(stands), at, 2, { class: 'picture-stands' })];
  }
  const at = startAt(`${name}  ${stands}`);
  return [text(name, at, 1, bold), text(stands, at + widthOf(`${name}  `), 1, { class: 'picture-stands' })];
}
