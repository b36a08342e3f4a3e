/** The sticking as large letters, for screens on which notation would be too small from the drum stool: rows of beats, as many as there is room for. */
import type { Exercise, ExpectedCycle } from '@evenhand/core/exercise';
import { toNumber } from '@evenhand/core/rational';
import { marksOf, nameFontPx, namesWidthPx } from './standdrums.ts';
import { fontPx } from './standsize.ts';

/** A letter of a row. */
export interface RowLetter {
  /** Cycle since the exercise begins, and main stroke. */
  readonly cycle: number;
  readonly index: number;
  readonly text: string;
  /** Small letters of its graces. */
  readonly graces: string;
  readonly accent: boolean;
  readonly ghost: boolean;
  /** Beats from the start of the row. */
  readonly beat: number;
  /** Which drum or limb, from 0 at the top. */
  readonly lane: number;
  /** Name of its drum, under the letter where there are too many for a lane each and it is another than before; else ''. */
  readonly drum: string;
}

export interface LetterRow {
  readonly letters: readonly RowLetter[];
  /** Beats that begin in the row: their number in the bar, and how far from the start of the row, in beats. */
  readonly beats: readonly { readonly number: number; readonly beat: number }[];
}

/** Rows of letters with their sizes, CSS pixels. */
export interface LetterPage {
  readonly rows: readonly LetterRow[];
  /** Rows on the screen at once. */
  readonly shownRows: number;
  readonly beatsPerRow: number;
  /** Names of the drums when hands play several, whole or as marks; none where the letter says it all. */
  readonly lanes: readonly string[];
  /** Whether drums stand as marks of two letters. */
  readonly marked: boolean;
  readonly laneCount: number;
  readonly capPx: number;
  readonly rowPx: number;
  readonly lanePx: number;
  /** Above the first lane, for accents. */
  readonly abovePx: number;
  /** Left of the first letter, for names. */
  readonly leftPx: number;
  /** From there to the middle of the first letter. */
  readonly firstPx: number;
  readonly pxPerBeat: number;
}

export interface LetterSpace {
  readonly widthPx: number;
  readonly heightPx: number;
  /** Least height of a letter. */
  readonly leastCapPx: number;
  /** Height of what is only glanced at: names of drums. */
  readonly glanceCapPx: number;
}

/** Widths in heights of a capital: the widest letter and the gap after it, what graces and parentheses add. By eye. */
const LETTER = { width: 1.02, gap: 0.16, graces: 0.5, ghost: 0.9 } as const;
/** Heights in heights of a capital: a lane, an accent over it, names of drums and the beats under it. By eye. */
const LANE = { height: 1.22, accent: 0.42, names: 0.76, beats: 0.5 } as const;
/** Two marks side by side under their letters need so much more between them, in heights of a capital. By eye. */
const UNDER_APART = 0.16;
/** So many drums have a lane each, the feet's among them; of more the name stands under the letter. By eye: four lanes on a phone leave one beat. */
const MOST_LANES = 3;
/** Of hands on one of these the letter says it all. */
const USUAL_DRUMS: readonly string[] = ['snare', 'pad'];
/** Letters grow no further than so many times the least: a whole row must be seen at a glance. By eye. */
const LARGEST = 1.9;
/** Room for whole names at the left, as a share of the width. By eye. */
const NAMES_SHARE = 0.13;
/** Between a mark and what stands beside it, in ems. By eye. */
const MARK_GAP_EM = 0.12;

/**
 * Lays an exercise out: all of it at once as large as there is room for, as long as its letters keep the least height; else as many rows as keep it.
 * @param cycle its strokes, as `exercise` gives them.
 */
export function layLetters(exercise: Pick<Exercise, 'bars' | 'meter'>, cycle: ExpectedCycle, space: LetterSpace): LetterPage {
  const drums = drumsOfHands(cycle);
  const lanes = lanesOf(cycle, drums);
  const whole = laid({ exercise, cycle, lanes, space });
  if ((lanes.names.length === 0 && !lanes.under) || isLegible(whole, space)) return whole;
  const marks = marksOf(drums);
  return laid({ exercise, cycle, lanes: { ...lanes, marked: true, shown: (name) => marks.get(name) ?? '' }, space });
}

/** Whether names of drums are as tall as what is glanced at. */
function isLegible(page: LetterPage, { widthPx, glanceCapPx }: LetterSpace): boolean {
  const leastPx = fontPx(glanceCapPx);
  if (page.lanes.length > 0) return nameFontPx(page, glanceCapPx) >= leastPx;
  return page.rows.every(({ letters }) => {
    const named = letters.filter(({ drum }) => drum !== '');
    const ends = [...named.slice(1).map(({ beat }) => beat), (widthPx - page.firstPx) / page.pxPerBeat];
    return named.every(({ beat, drum }, k) => namesWidthPx([drum], leastPx) < (ends[k]! - beat) * page.pxPerBeat);
  });
}

interface Laid {
  readonly exercise: Pick<Exercise, 'bars' | 'meter'>;
  readonly cycle: ExpectedCycle;
  readonly lanes: Lanes;
  readonly space: LetterSpace;
}

function laid({ exercise, cycle, lanes, space }: Laid): LetterPage {
  const totalBeats = exercise.bars * exercise.meter.beats;
  const names = lanes.names.map(lanes.shown);
  const asked: Asked = {
    ...{ space, lanes: lanes.count, totalBeats, meterBeats: exercise.meter.beats, leftPx: leftOf(names, lanes, space) },
    under: LANE.beats + (lanes.under ? LANE.names : 0),
    ...{ gapBeats: leastGap(cycle), decor: decorOf(cycle) + (lanes.under ? UNDER_APART : 0) },
    accents: cycle.strokes.some(({ accent }) => accent),
  };
  const sizes = rowLengths(exercise.meter.beats, asked.gapBeats).map((beatsPerRow) => sizeOf(beatsPerRow, asked));
  const best = sizes.reduce((a, b) => (better(b, a, space.leastCapPx) ? b : a));
  const rows = Array.from({ length: Math.ceil(totalBeats / best.beatsPerRow - 1e-9) }, (_, row) =>
    rowOf(row, best.beatsPerRow, { exercise, cycle, lanes }),
  );
  return { ...best, rows, lanes: names, marked: lanes.marked, laneCount: lanes.count, leftPx: asked.leftPx };
}

function leftOf(names: readonly string[], { marked }: Lanes, { widthPx, glanceCapPx }: LetterSpace): number {
  if (names.length === 0) return 0;
  const font = fontPx(glanceCapPx);
  return marked ? namesWidthPx(names, font) + MARK_GAP_EM * font : widthPx * NAMES_SHARE;
}

/**
 * Which row stands in each place of the screen: while one is played, the places before it already hold what comes after the last.
 * Nothing moves but what has been played.
 * @param row the present one, counted on over repeats.
 */
export function rowsShown({ rows, shownRows }: Pick<LetterPage, 'rows' | 'shownRows'>, row: number): readonly number[] {
  const count = rows.length;
  if (shownRows >= count) return rows.map((_, k) => k);
  return Array.from({ length: shownRows }, (_, place) => (row + ((((place - row) % shownRows) + shownRows) % shownRows)) % count);
}

/** Where a stroke stands: its row counted on over repeats, and its letters. Null when nothing is due. */
export function rowDue(page: LetterPage, cycle: ExpectedCycle, due: { readonly cycle: number; readonly indices: readonly number[] } | null): number {
  const first = cycle.strokes.find(({ index }) => due?.indices.includes(index));
  if (!due || !first) return 0;
  return Math.floor((due.cycle * toNumber(cycle.lengthBeats) + toNumber(first.beat)) / page.beatsPerRow + 1e-9);
}

interface Lanes {
  readonly count: number;
  readonly names: readonly string[];
  /** Whether names of drums stand under the letters. */
  readonly under: boolean;
  readonly marked: boolean;
  /** A name as it stands beside its lane or under its letter. */
  shown(name: string): string;
  laneOf(stroke: ExpectedCycle['strokes'][number]): number;
}

type Stroke = ExpectedCycle['strokes'][number];
const isFoot = ({ limb }: Stroke): boolean => limb === 'K' || limb === 'H';
const drumsOfHands = ({ strokes }: ExpectedCycle): readonly string[] => [
  ...new Set(strokes.filter((one) => !isFoot(one)).map(({ surface }) => surface)),
];

/** A lane for each drum where hands play several, or an unusual one; else one for all, or one for hands and one for feet where limbs play together. */
function lanesOf({ strokes }: ExpectedCycle, drums: readonly string[]): Lanes {
  const together = new Set(strokes.map(({ beat }) => toNumber(beat))).size < strokes.length;
  const feet = strokes.some(isFoot);
  const names = feet ? [...drums, ''] : drums;
  const named = drums.length > 1 || drums.some((drum) => !USUAL_DRUMS.includes(drum));
  const whole = { marked: false, shown: (name: string) => name };
  if (named && names.length <= MOST_LANES)
    return {
      ...whole,
      count: names.length,
      names,
      under: false,
      laneOf: (stroke) => (isFoot(stroke) ? names.length - 1 : drums.indexOf(stroke.surface)),
    };
  return { ...whole, count: together ? 2 : 1, names: [], under: drums.length > 1, laneOf: (stroke) => (together && isFoot(stroke) ? 1 : 0) };
}

/** Beats a row may have: a whole bar, even parts of it of whole beats, or of half ones where letters fall on the half, and half a beat. */
const rowLengths = (beats: number, gapBeats: number): readonly number[] =>
  Array.from({ length: 2 * beats }, (_, k) => beats - k / 2).filter(
    (length) => (2 * beats) % (2 * length) === 0 && (length <= 0.5 || Number.isInteger(length) || isWhole(length / gapBeats)),
  );

const isWhole = (value: number): boolean => Math.abs(value - Math.round(value)) < 1e-9;

/** Beats between two neighbours, the least of all; over the end of the cycle too. */
function leastGap({ strokes, lengthBeats }: ExpectedCycle): number {
  const onsets = [...new Set(strokes.map(({ beat }) => toNumber(beat)))].sort((a, b) => a - b);
  const length = toNumber(lengthBeats);
  const gaps = onsets.map((beat, k) => (onsets[k + 1] ?? length + onsets[0]!) - beat);
  return Math.min(1, ...gaps);
}

const decorOf = ({ strokes }: ExpectedCycle): number =>
  (strokes.some(({ graceCount }) => graceCount > 0) ? LETTER.graces : 0) + (strokes.some(({ ghost }) => ghost) ? LETTER.ghost : 0);

interface Asked {
  readonly space: LetterSpace;
  readonly lanes: number;
  readonly totalBeats: number;
  readonly meterBeats: number;
  readonly leftPx: number;
  readonly gapBeats: number;
  readonly decor: number;
  readonly accents: boolean;
  /** Under the lanes, in heights of a capital. */
  readonly under: number;
}

type Size = Omit<LetterPage, 'rows' | 'lanes' | 'marked' | 'laneCount' | 'leftPx'>;

function sizeOf(beatsPerRow: number, { space, lanes, totalBeats, meterBeats, leftPx, gapBeats, decor, accents, under }: Asked): Size {
  const heights = lanes * LANE.height + (accents ? LANE.accent : 0) + under;
  const rowCount = Math.ceil(totalBeats / beatsPerRow - 1e-9);
  const pxPerBeat = (space.widthPx - leftPx) / beatsPerRow;
  const byWidth = (pxPerBeat * gapBeats) / (LETTER.width + LETTER.gap + decor);
  const whole = Math.min(byWidth, space.heightPx / rowCount / heights);
  const least = Math.min(Math.max(whole, Math.min(byWidth, space.leastCapPx)), space.heightPx / heights);
  const room = Math.max(1, Math.min(rowCount, Math.floor(space.heightPx / (heights * least) + 1e-6)));
  // Whole bars, so that a beat has its place on the screen; less than one as an even part of it.
  const perBar = meterBeats / beatsPerRow;
  const shownRows = room >= rowCount ? rowCount : room >= perBar ? room - (room % perBar) : largestPart(perBar, room);
  const capPx = Math.min(Math.max(least, Math.min(byWidth, space.heightPx / shownRows / heights)), space.leastCapPx * LARGEST);
  const heightsPx = { capPx, rowPx: heights * capPx, lanePx: LANE.height * capPx, abovePx: accents ? LANE.accent * capPx : 0 };
  return { shownRows, beatsPerRow, ...heightsPx, pxPerBeat, firstPx: (pxPerBeat * gapBeats + (decor * capPx) / 2) / 2 };
}

/** The largest number that divides a bar's rows and is not above another. */
const largestPart = (rows: number, most: number): number => Array.from({ length: most }, (_, k) => most - k).find((part) => rows % part === 0) ?? 1;

/** Large enough goes first, then more at once, two rows at least so that what comes is in sight; then larger. */
function better(a: Size, b: Size, leastCapPx: number): boolean {
  const rank = ({ capPx, shownRows, beatsPerRow }: Size) => [
    Math.min(1, Math.round((100 * capPx) / leastCapPx) / 100),
    shownRows * beatsPerRow,
    Math.min(2, shownRows),
    capPx,
  ];
  const [left, right] = [rank(a), rank(b)];
  const at = left.findIndex((value, k) => Math.abs(value - right[k]!) > 1e-9);
  return at >= 0 && left[at]! > right[at]!;
}

interface Written {
  readonly exercise: Pick<Exercise, 'meter'>;
  readonly cycle: ExpectedCycle;
  readonly lanes: Lanes;
}

function rowOf(row: number, beatsPerRow: number, { exercise, cycle, lanes }: Written): LetterRow {
  const [from, to] = [row * beatsPerRow, (row + 1) * beatsPerRow];
  const first = Math.ceil(from - 1e-9);
  const beats = Array.from({ length: Math.max(0, Math.ceil(to - 1e-9) - first) }, (_, k) => first + k);
  const strokes = strokesIn(cycle, from, to);
  const letters = strokes.map(({ stroke, cycle: number, at }, k) => {
    const before = strokes
      .slice(0, k)
      .filter((one) => !isFoot(one.stroke))
      .at(-1)?.stroke.surface;
    const drum = lanes.under && !isFoot(stroke) && stroke.surface !== before ? lanes.shown(stroke.surface) : '';
    return { ...letterOf(stroke), cycle: number, beat: at - from, lane: lanes.laneOf(stroke), drum };
  });
  return { letters, beats: beats.map((beat) => ({ number: (beat % exercise.meter.beats) + 1, beat: beat - from })) };
}

/** The strokes from one beat up to another, in order of time. */
function strokesIn({ strokes, lengthBeats }: ExpectedCycle, from: number, to: number) {
  const length = toNumber(lengthBeats);
  const cycles = Array.from({ length: Math.ceil(to / length) - Math.floor(from / length) + 1 }, (_, k) => Math.floor(from / length) + k);
  return cycles.flatMap((cycle) =>
    strokes.map((stroke) => ({ stroke, cycle, at: cycle * length + toNumber(stroke.beat) })).filter(({ at }) => at > from - 1e-9 && at < to - 1e-9),
  );
}

const letterOf = (stroke: Stroke): Omit<RowLetter, 'cycle' | 'beat' | 'lane' | 'drum'> => ({
  index: stroke.index,
  text: stroke.buzz ? `${stroke.limb}z` : stroke.limb,
  // A grace is played by the other hand.
  graces: (stroke.limb === 'R' ? 'l' : 'r').repeat(isFoot(stroke) ? 0 : stroke.graceCount),
  accent: stroke.accent,
  ghost: stroke.ghost,
});
