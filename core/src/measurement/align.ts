/** The cheapest way to pair two sequences in order, leaving out what fits nowhere: the core of every matching here. */

/** What pairing and leaving out cost; Infinity forbids. Lower is better, negative allowed. */
export interface AlignmentCosts {
  /** Cost of pairing the expected `i` with the heard `j`. */
  readonly pair: (i: number, j: number) => number;
  /** Cost of hearing nothing for the expected `i`. */
  readonly missing: (i: number) => number;
  /** Cost of the heard `j` belonging to nothing expected. */
  readonly extra: (j: number) => number;
  /** Range [from, to) of heard ones that the expected `i` may pair with; neither end may fall as `i` rises. Default: all. */
  readonly reach?: (i: number) => readonly [number, number];
}

export interface Alignment {
  readonly cost: number;
  /** Per expected one, the heard one it is paired with or −1. */
  readonly heardOf: Int32Array;
}

/**
 * Order-preserving alignment of least total cost by dynamic programming.
 * Work and memory grow with the sum of the reaches, not with the product of the lengths.
 * @source [NeedlemanWunsch1970], with costs for scores and reaches to bound the work.
 */
export function align(expectedCount: number, heardCount: number, costs: AlignmentCosts): Alignment {
  const reach = costs.reach ?? (() => [0, heardCount] as const);
  const skipped = runningCost(heardCount, costs.extra);
  const rows: Row[] = [];
  let before: Row = { from: 0, cost: [0], step: [MISSING] };
  for (let i = 0; i < expectedCount; i++) {
    before = nextRow(i, before, reach(i), { costs, skipped });
    rows.push(before);
  }
  return { cost: costAt(before, heardCount, skipped), heardOf: traceBack(rows, heardCount) };
}

/** Least cost after an expected one and `from + n` heard ones, and the last step to it. Plain arrays: rows are short and many. */
interface Row {
  readonly from: number;
  readonly cost: readonly number[];
  readonly step: readonly Step[];
}

/** How a row's cheapest way arrived: by nothing heard for the expected one, by pairing it, or by leaving out one heard. */
const MISSING = 0;
const PAIRED = 1;
const EXTRA = 2;
type Step = typeof MISSING | typeof PAIRED | typeof EXTRA;

/** Cost of leaving out the first n heard ones, n from 0. */
function runningCost(count: number, extra: (j: number) => number): Float64Array {
  const sum = new Float64Array(count + 1);
  for (let j = 0; j < count; j++) sum[j + 1] = sum[j]! + extra(j);
  return sum;
}

/** Cost of a row at `heard` heard ones; beyond its end all further ones are extra. Before its start it cannot be. */
function costAt(row: Row, heard: number, skipped: Float64Array): number {
  const last = row.from + row.cost.length - 1;
  if (heard < row.from) return Number.POSITIVE_INFINITY;
  if (heard <= last) return row.cost[heard - row.from]!;
  return row.cost[row.cost.length - 1]! + skipped[heard]! - skipped[last]!;
}

function nextRow(i: number, before: Row, [from, to]: readonly [number, number], how: { costs: AlignmentCosts; skipped: Float64Array }): Row {
  const { costs, skipped } = how;
  const cost: number[] = [];
  const step: Step[] = [];
  const missing = costs.missing(i);
  for (let n = from; n <= to; n++) {
    let best = costAt(before, n, skipped) + missing;
    let by: Step = MISSING;
    if (n > from) {
      const withPair = costAt(before, n - 1, skipped) + costs.pair(i, n - 1);
      if (withPair < best) {
        best = withPair;
        by = PAIRED;
      }
      const withExtra = cost[n - 1 - from]! + costs.extra(n - 1);
      if (withExtra < best) {
        best = withExtra;
        by = EXTRA;
      }
    }
    cost.push(best);
    step.push(by);
  }
  return { from, cost, step };
}

function traceBack(rows: readonly Row[], heardCount: number): Int32Array {
  const heardOf = new Int32Array(rows.length).fill(-1);
  let heard = heardCount;
  for (let i = rows.length - 1; i >= 0; i--) {
    const row = rows[i]!;
    heard = Math.min(heard, row.from + row.cost.length - 1);
    while (row.step[heard - row.from] === EXTRA) heard -= 1;
    if (row.step[heard - row.from] === PAIRED) {
      heard -= 1;
      heardOf[i] = heard;
    }
  }
  return heardOf;
}
