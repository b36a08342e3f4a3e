/** The whole diary in one picture, as a file of its own, and as a table for a spreadsheet; the app and the command line make the same. */
import { defused, writeCsv } from '@evenhand/core/csv';
import { wholePicture } from '@evenhand/core/picture';
import { type BlockResult, type KnownTempo, laneTempi, type WholeDiary } from '@evenhand/core/progress';
import { type Language, say } from '@evenhand/core/words';

/** Clean tempi of every lane, by the id of its sticking point. */
export const tempiOfLanes = (whole: WholeDiary, results: readonly BlockResult[]): ReadonlyMap<string, readonly KnownTempo[]> =>
  new Map(whole.lanes.map((lane) => [lane.stickingPointId, laneTempi(results, lane, whole.lanes.length)]));

/** Width of the picture, and how many times as large its file is. Our choice: as wide as it is on a laptop, sharp on paper. */
const FILE = { widthPx: 900, times: 2, marginPx: 24, titlePx: 34 } as const;

/** The picture as SVG text that stands alone: black on white, its title on top. */
export function wholeSvg(whole: WholeDiary, tempi: ReadonlyMap<string, readonly KnownTempo[]>, language: Language = 'en'): string {
  const picture = wholePicture(whole, { widthPx: FILE.widthPx, id: 'whole', tempi, language });
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

/** Everything that the picture shows, a row each, in order of time: phrases, their clean tempi, days away, set-ups, lessons. */
export function wholeCsv(whole: WholeDiary, tempi: ReadonlyMap<string, readonly KnownTempo[]>): string {
  const phrases = whole.lanes.flatMap((lane) => {
    const { from, to, name, sticking, wantedBpm, perBeat, state } = lane;
    const of = [name || sticking, String(wantedBpm), String(perBeat)] as const;
    const known = (tempi.get(lane.stickingPointId) ?? []).map(({ day, median, low90, high90 }) =>
      rowOf({ from: day, to: day, what: 'cleanTempo', of, figures: [median, low90, high90] }),
    );
    return [rowOf({ from, to, what: `phrase, ${state?.is ?? 'open'}`, of }), ...known];
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
