/** The whole diary in one picture, as a file of its own, and as a table for a spreadsheet; the app and the command line make the same. */
import { defused, writeCsv } from '@evenhand/core/csv';
import { wholePicture } from '@evenhand/core/picture';
import { type BlockResult, type KnownTempo, type LaneMove, laneMoves, laneTempi, type WholeDiary } from '@evenhand/core/progress';
import { type Language, say } from '@evenhand/core/words';

/** Clean tempi of every lane, by the id of its sticking point. */
export const tempiOfLanes = (whole: WholeDiary, results: readonly BlockResult[]): ReadonlyMap<string, readonly KnownTempo[]> =>
  new Map(whole.lanes.map((lane) => [lane.stickingPointId, laneTempi(results, lane, whole.lanes.length)]));

/** Where lanes stood still or jumped, by the id of the sticking point. */
export type LaneMoves = ReadonlyMap<string, readonly LaneMove[]>;

/** Those of every lane. */
export const movesOfLanes = (whole: WholeDiary, results: readonly BlockResult[]): LaneMoves =>
  new Map(whole.lanes.map((lane) => [lane.stickingPointId, laneMoves(results, lane)]));

/** Width of the picture, and how many times as large its file is. Our choice: as wide as it is on a laptop, sharp on paper. */
const FILE = { widthPx: 900, times: 2, marginPx: 24, titlePx: 34 } as const;

interface WholeFile {
  readonly moves?: LaneMoves;
  readonly language?: Language;
}

/** Heads of lanes lie across shading and upright lines: on the ground of the file, as the page does it. */
const ON_WHITE = [
  /class="(picture-name|picture-stands)"/g,
  'class="$1" paint-order="stroke" stroke="#fff" stroke-width="5" stroke-linejoin="round"',
] as const;

/** The picture as SVG text that stands alone: black on white, its title on top. */
export function wholeSvg(
  whole: WholeDiary,
  tempi: ReadonlyMap<string, readonly KnownTempo[]>,
  { moves = new Map(), language = 'en' }: WholeFile = {},
): string {
  const picture = wholePicture(whole, { widthPx: FILE.widthPx, id: 'whole', tempi, moves, language }).replaceAll(...ON_WHITE);
  const heightPx = Number(/ height="([\d.]+)"/.exec(picture)![1]);
  const [width, height] = [FILE.widthPx + 2 * FILE.marginPx, heightPx + 2 * FILE.marginPx + FILE.titlePx];
  const title = say({ code: 'picture-whole-title', params: { from: whole.from, to: whole.to } }, language);
  const size = `width="${width * FILE.times}" height="${height * FILE.times}" viewBox="0 0 ${width * FILE.times} ${height * FILE.times}"`;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" class="picture" ${size} font-family="system-ui, sans-serif">`,
    `<rect x="0" y="0" width="${width * FILE.times}" height="${height * FILE.times}" fill="#fff"/>`,
    `<g fill="#111" color="#111" transform="scale(${FILE.times})">`,
    `<text x="${FILE.marginPx + 4}" y="${FILE.marginPx + 18}" font-size="20" font-weight="700">${title}</text>`,
    `<g transform="translate(${FILE.marginPx} ${FILE.marginPx + FILE.titlePx})">${picture}</g></g></svg>`,
  ].join('');
}

/** A spreadsheet takes text without it for another encoding. */
const BYTE_ORDER_MARK = '\uFEFF';
const COLUMNS = ['from', 'to', 'what', 'phrase', 'cleanTempoBpm', 'low90', 'high90', 'wantedBpm', 'perBeat', 'words'];

/** Everything that the picture shows, a row each, in order of time: phrases, their clean tempi, standstills and jumps (the tempo that it stood at, or came to), days away, set-ups, lessons. */
export function wholeCsv(whole: WholeDiary, tempi: ReadonlyMap<string, readonly KnownTempo[]>, moves: LaneMoves = new Map()): string {
  const phrases = whole.lanes.flatMap((lane) => {
    const { from, to, name, sticking, wantedBpm, perBeat, state } = lane;
    const of = [name || sticking, String(wantedBpm), String(perBeat)] as const;
    const known = (tempi.get(lane.stickingPointId) ?? []).map(({ day, median, low90, high90 }) =>
      rowOf({ from: day, to: day, what: 'cleanTempo', of, figures: [median, low90, high90] }),
    );
    const moved = (moves.get(lane.stickingPointId) ?? []).map((move) =>
      rowOf({ from: move.from, to: move.to, what: move.is, of, figures: [move.is === 'stood' ? move.bpm : move.afterBpm] }),
    );
    return [rowOf({ from, to, what: `phrase, ${state?.is ?? 'open'}`, of }), ...known, ...moved];
  });
  const others = [
    ...whole.away.map(({ from, to, before, meanwhile, back }) =>
      rowOf({ from, to, what: 'away', words: [...before, ...meanwhile, ...back].join(' | ') }),
    ),
    ...whole.changes.map(({ day, values }) => rowOf({ from: day, to: day, what: 'setup', words: values.join(' | ') })),
    ...whole.lessons.map(({ day, text }) => rowOf({ from: day, to: day, what: 'lesson', words: text })),
  ];
  const rows = [...phrases, ...others].sort((a, b) => (a[0]! < b[0]! ? -1 : a[0]! > b[0]! ? 1 : 0));
  return BYTE_ORDER_MARK + writeCsv([COLUMNS, ...rows]);
}

interface Row {
  readonly from: string;
  readonly to: string;
  readonly what: string;
  /** Name of a phrase, tempo wanted, subdivision. */
  readonly of?: readonly [string, string, string];
  readonly figures?: readonly number[];
  readonly words?: string;
}

/** What a player wrote may look like a formula. */
function rowOf({ from, to, what, of = ['', '', ''], figures = [], words = '' }: Row): readonly string[] {
  const [bpm = '', low = '', high = ''] = figures.map((figure) => figure.toFixed(1));
  return [from, to, what, defused(of[0]), bpm, low, high, of[1], of[2], defused(words)];
}
