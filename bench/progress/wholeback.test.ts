/** The picture of the whole diary read back from its SVG by Python's XML parser, of a year and of ten: lanes, tempi, days away and marks are the data, at every width. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { wholeSvg } from '../../adapters/src/report/index.ts';
import { addDays, daysBetween } from '../../core/src/day.ts';
import { wholePicture } from '../../core/src/picture/index.ts';
import type { KnownTempo, PhraseLane, WholeDiary } from '../../core/src/progress/index.ts';
import { seededRandom } from '../../core/src/random.ts';

/** Room on the screens at 390, 820 and 1440, and on A4 paper, CSS px. */
const WIDTHS_PX = [310, 704, 900, 640] as const;
const FIRST = '2025-11-27';

interface Read {
  readonly lanes: readonly {
    readonly name: string;
    readonly stands: string;
    readonly start: string;
    readonly end: string;
    readonly ends: number;
    readonly days: readonly string[];
    readonly values: readonly number[];
    readonly wanted: number | null;
  }[];
  readonly away: readonly { readonly start: string; readonly end: string; readonly number: string }[];
  readonly stood: readonly { readonly start: string; readonly end: string }[];
  readonly jumps: readonly string[];
  /** Pieces of the line that are drawn, and across how many gaps it is only hinted at, lane by lane. */
  readonly pieces: readonly (readonly [pieces: number, hints: number])[];
  readonly changes: readonly { readonly day: string; readonly number: string }[];
  readonly lessons: readonly { readonly day: string; readonly number: string }[];
  /** Smallest letters, right edge of all texts, and smallest distance between two months; px. */
  readonly least: number;
  readonly right: number;
  readonly apart: number;
  readonly numbers: readonly string[];
  readonly told: readonly string[];
}

/** An invented diary of so many days and phrases, one after the other. */
function invented(days: number, phrases: number): { readonly whole: WholeDiary; readonly tempi: ReadonlyMap<string, readonly KnownTempo[]> } {
  const random = seededRandom(days + phrases);
  const dayAt = (n: number) => addDays(FIRST, n);
  const each = Math.floor(days / phrases);
  const to = dayAt(days);
  const lanes = Array.from({ length: phrases }, (_, k): PhraseLane => {
    const ended = dayAt((k + 1) * each - 5);
    const state = k === phrases - 1 ? null : ({ is: k % 3 === 1 ? 'paused' : 'closed', day: ended } as const);
    const of = { stickingPointId: `p${k}`, name: k % 4 === 3 ? '' : `Phrase ${k} & <co>`, sticking: 'RLRLKK', perBeat: 4, wantedBpm: 100 + 3 * k };
    return { ...of, state, exerciseId: `e${k}`, from: dayAt(k * each), to: state ? ended : to, lastPlayed: ended, days: 20, minutes: 200 };
  });
  const tempi = lanes.map(({ stickingPointId, from, lastPlayed, wantedBpm }) => {
    const step = Math.max(1, Math.floor(daysBetween(from, lastPlayed) / 9));
    const known = Array.from({ length: 9 }, (_, k): KnownTempo => {
      const median = wantedBpm - 35 + 4 * k + 3 * random();
      return { known: true, day: addDays(from, step * k), median, low90: median - 5, high90: median + 5, runs: 20 };
    });
    return [stickingPointId, known] as const;
  });
  const away = Array.from({ length: Math.floor(days / 50) }, (_, k) => {
    const from = 20 + 50 * k;
    const length = 4 + Math.floor(9 * random());
    const lines = {
      before: k % 3 === 0 ? ['The kit goes on Thursday. '.repeat(6)] : [],
      meanwhile: [],
      back: k % 2 === 0 ? ['Back at <it> & "well".'] : [],
    };
    return { from: dayAt(from), to: dayAt(from + length - 1), days: length, ...lines, hurt: k === 1, idle: false };
  });
  const changes = [{ day: dayAt(100), names: ['sticks'], values: ['maple'] }];
  const lessons = [{ day: dayAt(Math.floor(0.7 * days)), text: 'Lesson: lower stick.' }];
  return { whole: { from: FIRST, to, lanes, away, changes, lessons }, tempi: new Map(tempi) };
}

/** One standstill and one jump in the first lane. */
const movesOf = ({ lanes: [first] }: WholeDiary) =>
  new Map([
    [
      first!.stickingPointId,
      [
        { is: 'stood', from: addDays(first!.from, 9), to: addDays(first!.from, 29), bpm: 70 },
        { is: 'jump', ...{ from: addDays(first!.from, 30), to: addDays(first!.from, 30) }, beforeBpm: 70, afterBpm: 80 },
      ] as const,
    ],
  ]);

const diaries = [
  { name: 'a year, three phrases', ...invented(364, 3) },
  { name: 'ten years, thirty phrases', ...invented(3650, 30) },
];
const pictures = diaries.flatMap(({ whole, tempi }) => [
  ...WIDTHS_PX.map((widthPx) => wholePicture(whole, { widthPx, id: `w${widthPx}`, tempi, moves: movesOf(whole) })),
  wholeSvg(whole, tempi),
]);
const { status, stdout, stderr } = spawnSync('python3', [join(import.meta.dirname, 'readsvg.py')], {
  input: JSON.stringify(pictures.map((svg) => ({ kind: 'whole', svg }))),
  encoding: 'utf8',
  maxBuffer: 1 << 26,
});
if (status !== 0) process.stderr.write(`wholeback.test.ts: left out, there is no python3 to read with ${stderr ?? ''}\n`);
const read = status === 0 ? (JSON.parse(stdout) as readonly Read[]) : [];
const PER_DIARY = WIDTHS_PX.length + 1;

describe.skipIf(status !== 0).each(diaries.map((diary, k) => ({ ...diary, k })))('$name (read by: Python xml.etree)', ({ whole, tempi, k }) => {
  const all = [...WIDTHS_PX.entries()].map(([w, widthPx]) => ({ widthPx, told: read[k * PER_DIARY + w]! }));

  test.each(all)('at $widthPx px: each phrase from its first day to its last, and what became of it', ({ told }) => {
    expect(told.lanes.map(({ name, start, end, ends }) => ({ name, start, end, ends }))).toEqual(
      whole.lanes.map(({ name, sticking, from, to, state }) => ({ name: name || sticking, start: from, end: to, ends: state ? 2 : 1 })),
    );
    for (const [n, { stands }] of told.lanes.entries()) {
      const { wantedBpm, stickingPointId, state } = whole.lanes[n]!;
      const known = tempi.get(stickingPointId)!;
      const says = `${Math.round(known[0]!.median)} to ${Math.round(known.at(-1)!.median)}, wanted ${wantedBpm}`;
      expect(stands).toContain(says);
      expect(stands.includes('closed')).toBe(state?.is === 'closed');
      expect(stands.includes('put aside')).toBe(state?.is === 'paused');
    }
  });

  test.each(all)('at $widthPx px: clean tempi on their days, and the tempo wanted', ({ told }) => {
    for (const [n, lane] of told.lanes.entries()) {
      const known = tempi.get(whole.lanes[n]!.stickingPointId)!;
      expect(lane.days).toEqual(known.map(({ day }) => day));
      // Lanes too low for an axis show the way alone. A lane of 54 px spans some 60 beats, and is written to hundredths of a px.
      if (lane.wanted === null) continue;
      expect(Math.abs(lane.wanted - whole.lanes[n]!.wantedBpm)).toBeLessThan(0.1);
      for (const [p, value] of lane.values.entries()) expect(Math.abs(value - known[p]!.median)).toBeLessThan(0.1);
    }
    expect(told.lanes.every(({ wanted }) => wanted !== null)).toBe(whole.lanes.length <= 12);
  });

  test.each(all)('at $widthPx px: days away, set-ups and lessons on their days; numbers rise, and each is told below', ({ told }) => {
    expect(told.away.map(({ start, end }) => ({ from: start, to: end }))).toEqual(whole.away.map(({ from, to }) => ({ from, to })));
    expect(told.changes.map(({ day }) => day)).toEqual(whole.changes.map(({ day }) => day));
    expect(told.lessons.map(({ day }) => day)).toEqual(whole.lessons.map(({ day }) => day));
    const numbered = [
      ...told.away.map(({ start, number }) => ({ day: start, number })),
      ...[...told.changes, ...told.lessons].map(({ day, number }) => ({ day, number })),
    ].filter(({ number }) => number !== '');
    const numbers = numbered.sort((a, b) => Number(a.number) - Number(b.number));
    expect(numbers.map(({ number }) => number)).toEqual(told.numbers);
    expect(numbers.map(({ day }) => day)).toEqual(numbers.map(({ day }) => day).sort());
    expect(numbers).toHaveLength(Math.min(14, whole.away.length + 2));
    // The longest days away are among them.
    const longest = Math.max(...whole.away.map(({ days }) => days));
    expect(told.away.some(({ start, number }) => number !== '' && whole.away.find(({ from }) => from === start)!.days === longest)).toBe(true);
  });

  test.each(all)('at $widthPx px: the standstill and the jump on their days', ({ told }) => {
    const [stood, jump] = movesOf(whole).get(whole.lanes[0]!.stickingPointId)!;
    expect(told.stood).toEqual([{ start: stood.from, end: stood.to }]);
    expect(told.jumps).toEqual([jump.from]);
  });

  test.each(all)('at $widthPx px: the line is broken over days away that lie between two of its days, and nowhere else', ({ told }) => {
    const gaps = whole.lanes.map(({ stickingPointId }) => {
      const days = tempi.get(stickingPointId)!.map(({ day }) => day);
      return days.slice(1).filter((day, k) => whole.away.some(({ from, to }) => from > days[k]! && to < day)).length;
    });
    expect(told.pieces).toEqual(gaps.map((count) => [count + 1, count]));
    expect(gaps.some((count) => count > 0)).toBe(true);
  });

  test.each(all)('at $widthPx px: letters of 11 px at least, inside the picture, and months that do not touch', ({ widthPx, told }) => {
    expect(told.least).toBeGreaterThanOrEqual(11);
    expect(told.right).toBeLessThanOrEqual(widthPx);
    // "Sept" in 12 px takes some 26 px.
    expect(told.apart).toBeGreaterThan(28);
  });

  test('the file that is saved holds the same', () => {
    const file = read[k * PER_DIARY + WIDTHS_PX.length]!;
    expect(file.away).toHaveLength(whole.away.length);
    expect(file.lanes.map(({ days }) => days)).toEqual(whole.lanes.map(({ stickingPointId }) => tempi.get(stickingPointId)!.map(({ day }) => day)));
  });
});
