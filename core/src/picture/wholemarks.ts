/** What lies between the days in the picture of the whole diary: days away, other set-ups, lessons; numbered above the lanes and told below them. */
import { daysBetween } from '../day.ts';
import { awayWritten, type WholeDiary } from '../progress/index.ts';
import { type Language, type PictureStatement, say } from '../words/index.ts';
import { linesOf } from './lines.ts';
import { NUMBERED, SMALL_LETTER_PX, SMALL_TEXT_PX, WHOLE_PX } from './parameters.ts';
import { element, line, textAt } from './svg.ts';
import type { LaneDrawn, LaneRoom } from './wholelane.ts';

/** Something between the days, with what is said of it. */
export interface Happening {
  readonly is: 'away' | 'setup' | 'lesson';
  readonly from: string;
  readonly to: string;
  readonly said: Parameters<typeof say>[0];
}

/** Everything, in order of time. */
export const happenings = ({ away, changes, lessons }: WholeDiary): readonly Happening[] =>
  [
    ...away.map((one): Happening => ({ is: 'away', from: one.from, to: one.to, said: awayWritten(one) })),
    ...changes.map(
      ({ day, names, values }): Happening => ({
        is: 'setup',
        from: day,
        to: day,
        said: { code: 'picture-whole-setup', params: { day, names, values } },
      }),
    ),
    ...lessons.map(
      ({ day, text }): Happening => ({ is: 'lesson', from: day, to: day, said: { code: 'picture-whole-lesson', params: { day, text } } }),
    ),
  ].sort((a, b) => (a.from < b.from ? -1 : a.from > b.from ? 1 : 0));

/** One with its number and the row that it stands in above the lanes; a number of 0 is not written. */
export interface Marked extends Happening {
  readonly number: number;
  readonly row: number;
}

/** Those that are numbered: the latest set-ups and lessons, and the longest days away. */
function chosen(all: readonly Happening[]): ReadonlySet<Happening> {
  const latest = (is: Happening['is'], count: number) => all.filter((one) => one.is === is).slice(-count);
  const others = [...latest('setup', NUMBERED.changes), ...latest('lesson', NUMBERED.lessons)];
  const away = all.filter(({ is }) => is === 'away').sort((a, b) => daysBetween(b.from, b.to) - daysBetween(a.from, a.to));
  return new Set([...others, ...away.slice(0, NUMBERED.most - others.length)]);
}

/** Numbers in order of time; one that would touch the one before it stands a row higher. */
export function numberRows(all: readonly Happening[], xOf: LaneRoom['xOf']): { readonly marks: readonly Marked[]; readonly rows: number } {
  const numbered = chosen(all);
  const ends: number[] = [];
  let number = 0;
  const marks = all.map((one): Marked => {
    if (!numbered.has(one)) return { ...one, number: 0, row: 0 };
    number++;
    const half = (String(number).length * SMALL_LETTER_PX) / 2 + 2;
    const x = middleOf(one, xOf);
    const free = ends.findIndex((end) => end <= x - half);
    const row = free < 0 ? ends.length : free;
    ends[row] = x + half;
    return { ...one, number, row };
  });
  return { marks, rows: ends.length };
}

/** How many are told in the table alone. */
export const unnumbered = (whole: WholeDiary): number => {
  const all = happenings(whole);
  return all.length - chosen(all).size;
};

const middleOf = ({ from, to }: Pick<Happening, 'from' | 'to'>, xOf: LaneRoom['xOf']): number => (xOf(from) + xOf(to, 1)) / 2;

const CLASSES = { away: 'picture-away', setup: 'picture-change', lesson: 'picture-lesson' } as const;
const DASHES = { setup: '1.5 3.5', lesson: '7 3' } as const;

/** A band of days, or a line at a day, from its number down through the lanes. */
export function markOf(
  mark: Marked,
  { top, lanesTop, bottom, xOf }: { readonly top: number; readonly lanesTop: number; readonly bottom: number } & Pick<LaneRoom, 'xOf'>,
): string {
  const { is, from, to, number, row } = mark;
  const x = middleOf(mark, xOf);
  const baseline = lanesTop - row * WHOLE_PX.numberRow - 5;
  const shape =
    is === 'away'
      ? element('rect', { x: xOf(from), y: lanesTop, width: xOf(to, 1) - xOf(from), height: bottom - lanesTop, 'fill-opacity': 0.14 })
      : line([x, Math.max(top, number === 0 ? lanesTop : baseline + 2)], [x, bottom], {
          stroke: 'currentColor',
          'stroke-width': 1.4,
          'stroke-dasharray': DASHES[is],
        });
  const label =
    number === 0 ? [] : [textAt(String(number), { x, y: baseline, 'font-size': SMALL_TEXT_PX, 'text-anchor': 'middle', 'font-weight': 600 })];
  return element('g', { class: CLASSES[is] }, shape, ...label);
}

interface Below {
  readonly top: number;
  readonly widthPx: number;
  readonly language: Language | undefined;
  /** So many have no number. */
  readonly more: number;
  readonly drawn: readonly LaneDrawn[];
}

/** What each number is, in words, and what the marks mean; with the lower edge of it all. */
export function toldBelow(
  marks: readonly Marked[],
  { top, widthPx, language, more, drawn }: Below,
): { readonly texts: readonly string[]; readonly bottom: number } {
  const left = WHOLE_PX.bareLeft;
  const indent = 3 * SMALL_LETTER_PX;
  const lines = widthPx < NUMBERED.narrowPx ? NUMBERED.linesNarrow : NUMBERED.linesWide;
  const mostOf = (roomPx: number) => Math.floor(roomPx / SMALL_LETTER_PX);
  const texts: string[] = [];
  let y = top;
  const write = (text: string, x: number, kind: string) => {
    texts.push(textAt(text, { x, y: y + SMALL_TEXT_PX, 'font-size': SMALL_TEXT_PX, class: kind }));
  };
  const put = (all: readonly string[], x: number, kind: string) => {
    for (const text of all) {
      write(text, x, kind);
      y += WHOLE_PX.row;
    }
    y += 2;
  };
  const kinds = new Set(marks.map(({ is }) => is));
  const moves = movesTold(drawn);
  const key = keyOf(kinds, { more, drawn });
  if (key !== '') put(linesOf(key, { most: mostOf(widthPx - left), lines: lines + 2 }), left, 'picture-key');
  for (const said of moves) put(linesOf(say(said, language), { most: mostOf(widthPx - left), lines }), left, 'picture-moved');
  for (const { number, said } of marks.filter((one) => one.number > 0)) {
    write(String(number), left, 'picture-number');
    put(linesOf(say(said, language), { most: mostOf(widthPx - left - indent), lines }), left + indent, 'picture-told');
  }
  return { texts, bottom: y + 4 };
}

/** Standstills and jumps in words, the latest of them. */
const movesTold = (drawn: readonly LaneDrawn[]): readonly PictureStatement[] =>
  drawn
    .flatMap(({ lane: { name, sticking, perBeat }, moves }) =>
      moves.map((move): PictureStatement & { readonly params: { readonly from: string } } => {
        const of = { name: name || sticking, perBeat, from: move.from, to: move.to };
        if (move.is === 'stood') return { code: 'picture-whole-stood', params: { ...of, bpm: Math.round(move.bpm) } };
        return { code: 'picture-whole-jump', params: { ...of, beforeBpm: Math.round(move.beforeBpm), afterBpm: Math.round(move.afterBpm) } };
      }),
    )
    .sort((a, b) => (a.params.from < b.params.from ? -1 : 1))
    .slice(-NUMBERED.moves);

const keyOf = (kinds: ReadonlySet<Happening['is']>, { more, drawn }: Pick<Below, 'more' | 'drawn'>): string => {
  const has = (is: 'stood' | 'jump') => drawn.some(({ moves }) => moves.some((move) => move.is === is));
  const lines = drawn.some(({ tempi }) => tempi.length > 0) && drawn.length > 1;
  const params = {
    away: kinds.has('away'),
    setup: kinds.has('setup'),
    lesson: kinds.has('lesson'),
    stood: has('stood'),
    jump: has('jump'),
    lines,
    more,
  };
  const key: PictureStatement = { code: 'picture-whole-key', params };
  return say(key);
};
