/** Two takes of the same phrase laid alongside each other, stroke by stroke: from where to where they play the same. */
import { type MeasuredStroke, type Measurement, TIMING_CONFIDENCE } from '../measurement/index.ts';
import { median } from '../quantiles.ts';
import { msOfSec } from '../units.ts';
import { FEWEST_STROKES, LEAD_SEC } from './parameters.ts';

/** The same cycles in both takes. */
export interface Alongside {
  /** Second of the earlier take at which it begins, a little before its first stroke; it may lie before the take. */
  readonly thenFromSec: number;
  /** The same moment in the later take. */
  readonly nowFromSec: number;
  readonly durationSec: number;
  readonly cycleCount: number;
  /** Strokes that were heard surely in both; half of them come earlier now than then, half later. */
  readonly strokeCount: number;
  /** How much longer these cycles take now than then, ms: tempi that differ a little drift apart by so much. */
  readonly driftMs: number;
}

/**
 * Lays them alongside each other.
 * @param wantedSec about how long; as many whole cycles as come nearest, one at least, as far as both go on.
 * @returns null when they have too few strokes in common.
 */
export function layAlongside(then: Measurement, now: Measurement, wantedSec: number): Alongside | null {
  const [before, after] = [cyclesOf(then), cyclesOf(now)];
  const cycleSec = lengthOf(before);
  if (cycleSec === null) return null;
  const wanted = Math.max(1, Math.round(wantedSec / cycleSec));
  const cycleCount = Math.min(wanted, longestRow(before), longestRow(after));
  const [was, is] = [bestRow(before, cycleCount), bestRow(after, cycleCount)];
  if (was === null || is === null) return null;
  const later = was.flatMap((strokes, k) => stepsBetween(strokes, is[k]!));
  if (later.length < FEWEST_STROKES) return null;
  const thenFromSec = was[0]![0]!.expectedSec - LEAD_SEC;
  return {
    thenFromSec,
    nowFromSec: thenFromSec + median(later),
    durationSec: cycleCount * cycleSec,
    cycleCount,
    strokeCount: later.length,
    driftMs: msOfSec(spanOf(is) - spanOf(was)),
  };
}

type Cycle = readonly MeasuredStroke[];

/** Strokes by cycle, each in order. */
function cyclesOf({ strokes }: Measurement): ReadonlyMap<number, Cycle> {
  const cycles = new Map<number, MeasuredStroke[]>();
  for (const stroke of [...strokes].sort((a, b) => a.expectedSec - b.expectedSec)) {
    const known = cycles.get(stroke.cycle);
    if (known) known.push(stroke);
    else cycles.set(stroke.cycle, [stroke]);
  }
  return cycles;
}

/** Seconds of a cycle, the median between neighbours; null with fewer than two. */
function lengthOf(cycles: ReadonlyMap<number, Cycle>): number | null {
  const steps = [...cycles].flatMap(([cycle, strokes]) => {
    const next = cycles.get(cycle + 1);
    return next && next[0]!.index === strokes[0]!.index ? [next[0]!.expectedSec - strokes[0]!.expectedSec] : [];
  });
  return steps.length === 0 ? null : median(steps);
}

/** Cycles that are in a row from each on. */
const rowFrom = (cycles: ReadonlyMap<number, Cycle>, first: number, count: number): readonly Cycle[] =>
  Array.from({ length: count }, (_, k) => cycles.get(first + k) ?? []);

function longestRow(cycles: ReadonlyMap<number, Cycle>): number {
  let [longest, row] = [0, 0];
  for (const cycle of [...cycles.keys()].sort((a, b) => a - b)) {
    row = cycles.has(cycle - 1) ? row + 1 : 1;
    longest = Math.max(longest, row);
  }
  return longest;
}

/** The row of so many cycles in which most was played, the first of several. */
function bestRow(cycles: ReadonlyMap<number, Cycle>, count: number): readonly Cycle[] | null {
  const rows = [...cycles.keys()].map((first) => rowFrom(cycles, first, count)).filter((row) => row.every((cycle) => cycle.length > 0));
  const played = rows.map((row) => row.flat().filter(({ status }) => status === 'played').length);
  return rows[played.indexOf(Math.max(...played))] ?? null;
}

/** How much later, in seconds of the takes, each stroke comes now; only what was surely heard in both. */
function stepsBetween(then: Cycle, now: Cycle): readonly number[] {
  const sure = (strokes: Cycle) =>
    strokes.flatMap(({ index, playedSec, confidence }) => (playedSec !== null && confidence >= TIMING_CONFIDENCE ? [{ index, playedSec }] : []));
  const after = sure(now);
  return sure(then).flatMap(({ index, playedSec }) => {
    const same = after.find((stroke) => stroke.index === index);
    return same ? [same.playedSec - playedSec] : [];
  });
}

const spanOf = (row: readonly Cycle[]): number => row.at(-1)!.at(-1)!.expectedSec - row[0]![0]!.expectedSec;
