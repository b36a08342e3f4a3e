/** Every plot of progress read back from its SVG by Python's XML parser, at the widths of a phone, a tablet, a laptop and paper: what stands there are the data. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { addDays } from '../../core/src/day.ts';
import { expectedCycle, readContent } from '../../core/src/exercise/index.ts';
import { cellPicture, ringPicture, tempoPicture, thenNowPicture } from '../../core/src/picture/index.ts';
import type { CellWeek, CurvePoint } from '../../core/src/progress/index.ts';
import { madeMeasurement } from '../../core/src/progress/made.case.ts';
import { seededRandom } from '../../core/src/random.ts';
import { readSticking } from '../../core/src/sticking/index.ts';

interface Mark {
  readonly day: string;
  readonly off: number;
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly open: boolean;
}
interface DaysRead {
  readonly marks: readonly Mark[];
  readonly wanted: readonly number[];
  readonly changes: readonly { readonly day: string; readonly label: string }[];
  readonly unknown: readonly string[];
  /** Smallest distance between two dates, px. */
  readonly apart: number;
}
interface RingRead {
  readonly strokes: readonly { letter: string; at: number; size: number; shift: number; low: number; high: number }[];
}

/** Room of a picture on the screens at 390, 820 and 1440, and on A4 paper, CSS px (measured in Chromium; the widest picture is 900). */
const WIDTHS_PX = [310, 704, 900, 640] as const;
const FIRST = '2025-11-25';

const random = seededRandom(4);
const points: readonly CurvePoint[] = Array.from({ length: 60 }, (_, k): CurvePoint => {
  const day = addDays(FIRST, Math.floor(6.1 * k));
  const of = { day, runs: 20, clean: 17, heard: k % 7 !== 3 };
  if (k % 11 === 0) return { ...of, estimate: { known: false, why: { code: 'clean-tempo-few-runs', params: { runs: 3, needed: 8 } } } };
  const median = 72 + 30 * (k / 60) + 4 * random();
  return { ...of, estimate: { known: true, median, low90: median - 1 - 8 * random(), high90: median + 1 + 8 * random(), runs: 20 } };
});
const figure = (value: number, half: number) => ({ value, low: value - half, high: value + half });
const weeks: readonly CellWeek[] = Array.from({ length: 40 }, (_, k) => ({
  from: addDays('2025-12-01', 7 * k),
  blocks: k % 9 === 4 ? 2 : 12,
  space: k % 9 === 4 ? null : figure(0.72 + 0.006 * k, 0.01 + 0.04 * random()),
  stepDb: k % 9 === 4 ? null : figure(-6 + 0.13 * k, 0.2 + random()),
}));
const changes = [
  { day: addDays(FIRST, 100), label: 'Sticks: maple' },
  { day: addDays(FIRST, 290), label: 'Pedal and beater: <wood> & "felt"' },
];
const cycle = expectedCycle(readContent(readSticking('RLRLKK').value!, { perBeat: 4 }).value!);
const take = (biasMs: number) =>
  madeMeasurement(
    [...'RLRLKK'].map((limb, k) => ({ limb: limb as 'R', biasMs: k === 5 ? biasMs : k - 2, levelDb: -20 - k })),
    { tempoBpm: 92 },
  );
const takes = [take(-27), take(-4)] as const;
const CYCLE_MS = (6 * 60_000) / (92 * 4);

const plots = WIDTHS_PX.flatMap((widthPx) => [
  { kind: 'days', svg: tempoPicture(points, { widthPx, id: 't', perBeat: 4, goalBpm: 104, changes }) },
  { kind: 'days', svg: cellPicture(weeks, { widthPx, id: 's', of: 'space', changes }) },
  { kind: 'days', svg: cellPicture(weeks, { widthPx, id: 'v', of: 'volume', changes }) },
  ...takes.map((measurement, k) => ({
    kind: 'rings',
    svg: ringPicture(measurement, cycle, { widthPx, id: `r${k}`, sticking: 'RLRLKK', perBeat: 4 }),
  })),
]);
const shown = (['square', 'wide'] as const).map((shape) => {
  const [then, now] = takes.map((measurement, k) => ({ day: addDays(FIRST, 300 * k), measurement }));
  return { kind: 'rings', svg: thenNowPicture(then!, now!, { shape, of: 'days', id: shape, cycle, sticking: 'RLRLKK', perBeat: 4, said: [] }) };
});

const script = join(import.meta.dirname, 'readsvg.py');
const { status, stdout, stderr } = spawnSync('python3', [script], {
  input: JSON.stringify([...plots, ...shown]),
  encoding: 'utf8',
  maxBuffer: 1 << 26,
});
if (status !== 0) process.stderr.write(`readback.test.ts: left out, there is no python3 to read with ${stderr ?? ''}\n`);
const read = status === 0 ? (JSON.parse(stdout) as readonly (DaysRead | readonly RingRead[])[]) : [];

/** Coordinates are written to hundredths of a px; a plot is 160 px high at least, and a year wide on 220 px at least. */
const shareOf = (low: number, high: number) => ((high - low) * 0.05) / 160;

function expectMarks(told: DaysRead, marks: readonly Omit<Mark, 'off'>[]): void {
  expect(told.marks.map(({ day, open }) => [day, open])).toEqual(marks.map(({ day, open }) => [day, open]));
  const ends = marks.flatMap(({ low, high }) => [low, high]);
  const near = shareOf(Math.min(...ends), Math.max(...ends)) * 1.5;
  for (const [k, { value, low, high }] of marks.entries()) {
    const mark = told.marks[k]!;
    expect(mark.off).toBeLessThan(0.2);
    for (const [one, other] of [
      [mark.value, value],
      [mark.low, low],
      [mark.high, high],
    ] as const)
      expect(Math.abs(one - other)).toBeLessThan(near);
  }
  expect(told.changes).toEqual(changes);
}

const tempoMarks = points.flatMap(({ day, heard, estimate }) =>
  estimate.known ? [{ day, value: estimate.median, low: estimate.low90, high: estimate.high90, open: !heard }] : [],
);
const cellMarks = (of: 'space' | 'stepDb', times: number) =>
  weeks.flatMap(({ from, [of]: one }) =>
    one ? [{ day: from, value: times * one.value, low: times * one.low, high: times * one.high, open: false }] : [],
  );

test.skipIf(status !== 0).each(WIDTHS_PX.map((widthPx, k) => ({ widthPx, k })))(
  'at $widthPx px: tempo, evenness and volume with their intervals, days, changes and days that tell too little (read by: Python xml.etree)',
  ({ k }) => {
    const [tempo, space, volume] = read.slice(5 * k, 5 * k + 3) as readonly DaysRead[];
    expectMarks(tempo!, tempoMarks);
    expect(Math.abs(tempo!.wanted[0]! - 104)).toBeLessThan(0.05);
    expect(tempo!.unknown).toEqual(points.filter(({ estimate }) => !estimate.known).map(({ day }) => day));
    expectMarks(space!, cellMarks('space', 100));
    expect(Math.abs(space!.wanted[0]! - 100)).toBeLessThan(0.05);
    expectMarks(volume!, cellMarks('stepDb', 1));
    expect(Math.abs(volume!.wanted[0]!)).toBeLessThan(0.05);
    expect(space!.unknown).toEqual(weeks.filter((week) => week.space === null).map(({ from }) => from));
    // A date such as "25 Nov 2025" in 12 px takes some 70 px.
    for (const { apart } of [tempo!, space!, volume!]) expect(apart).toBeGreaterThan(70);
  },
);

function expectRing({ strokes }: RingRead, measurement: (typeof takes)[number]): void {
  expect(strokes.map(({ letter }) => letter).join('')).toBe('RLRLKK');
  for (const [k, stroke] of strokes.entries()) {
    const { biasMs, biasLowMs, biasHighMs } = measurement.places[k]!;
    expect(Math.abs(stroke.at - k / 6)).toBeLessThan(1e-4);
    // A hundredth of a px is a sixth of a millisecond at most on the smallest ring.
    expect(Math.abs(CYCLE_MS * stroke.shift - biasMs!)).toBeLessThan(0.2);
    expect(Math.abs(CYCLE_MS * stroke.low - biasLowMs!)).toBeLessThan(0.2);
    expect(Math.abs(CYCLE_MS * stroke.high - biasHighMs!)).toBeLessThan(0.2);
  }
}

test.skipIf(status !== 0)(
  'then and now as rings at every width and as pictures to show: early, late and their ranges (read by: Python xml.etree)',
  () => {
    for (const k of WIDTHS_PX.keys()) {
      for (const [which, measurement] of takes.entries()) expectRing((read[5 * k + 3 + which] as readonly RingRead[])[0]!, measurement);
    }
    for (const [k] of shown.entries()) {
      const rings = read[plots.length + k] as readonly RingRead[];
      expect(rings).toHaveLength(2);
      for (const [which, measurement] of takes.entries()) expectRing(rings[which]!, measurement);
    }
  },
);
