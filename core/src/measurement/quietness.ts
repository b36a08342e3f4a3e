/** How quiet it was when a stroke was expected, against what sounds at that place in all other cycles. */

import { median, robustSpread } from '../quantiles.ts';
import type { Candidate, Loudness } from '../stroke/index.ts';
import { dbOfPower } from '../units.ts';
import { type EventCycle, placeOf } from './events.ts';
import type { MatchedEvent } from './matching.ts';
import { QUIET, TIMING_CONFIDENCE } from './parameters.ts';
import type { PlaceModel } from './placemodel.ts';

/** Below zero is quieter than usual; the quietest third of the bands counts, since ringing of other drums fills the rest. */
export interface Quietness {
  /** Against all cycles, in spreads of each band over the cycles. */
  readonly spreads: number;
  /** Against those cycles in which the stroke was surely heard, in dB; null while they are few. */
  readonly stepDb: number | null;
}

/** What usually sounds at one place, in dB per band. */
interface Usual {
  readonly all: readonly Band[];
  readonly heard: readonly Band[] | null;
}

interface Band {
  readonly medianDb: number;
  readonly spreadDb: number;
}

/**
 * Judges the quiet at any event of a take; gives null where too few cycles are known to say what is usual.
 * Most cycles are played in full, so that what sounds in all of them, found or not, is what a played stroke leaves.
 */
export function quietnessIn(
  loudness: Loudness,
  cycle: EventCycle,
  heard: { readonly events: readonly MatchedEvent[]; readonly candidates: readonly Candidate[]; readonly models: readonly PlaceModel[] },
): (event: MatchedEvent) => Quietness | null {
  const { candidates, models } = heard;
  const expectedSec = (event: MatchedEvent) => event.gridSec + models[placeOf(cycle, event.event)]!.biasSec;
  const levels: { all: number[][]; heard: number[][] }[] = cycle.events.map(() => ({ all: [], heard: [] }));
  for (const event of heard.events) {
    const found = candidates[event.candidate];
    const sure = found !== undefined && found.confidence >= TIMING_CONFIDENCE;
    const row = levelsAt(loudness, rowAt(loudness, sure ? found.timeSec : expectedSec(event)));
    const place = levels[placeOf(cycle, event.event)]!;
    place.all.push(row);
    if (sure) place.heard.push(row);
  }
  const usual = levels.map(({ all, heard: sure }): Usual | null =>
    all.length < QUIET.fewest ? null : { all: bandsOf(all), heard: sure.length < QUIET.fewest ? null : bandsOf(sure) },
  );
  return (event) => {
    const place = usual[placeOf(cycle, event.event)]!;
    return place && quietnessAt(loudness, rowAt(loudness, expectedSec(event)), place);
  };
}

const rowAt = ({ rowSec, fromSec }: Loudness, sec: number): number => Math.round((sec - fromSec) / rowSec);

/** Levels in dB per band over the rows from `row` on; what lies outside the take is silence. */
function levelsAt({ powers, bandCount }: Loudness, row: number): number[] {
  const levels = new Array<number>(bandCount).fill(1e-14);
  for (let n = Math.max(0, row) * bandCount; n < Math.min(powers.length, (row + QUIET.rows) * bandCount); n++) {
    levels[n % bandCount]! += powers[n]! / QUIET.rows;
  }
  return levels.map(dbOfPower);
}

const bandsOf = (rows: readonly (readonly number[])[]): Band[] =>
  rows[0]!.map((_, band) => {
    const values = rows.map((row) => row[band]!);
    return { medianDb: median(values), spreadDb: Math.max(QUIET.leastSpreadDb, robustSpread(values)) };
  });

/** The stroke may have come a row early or late: the least quiet of the three counts. */
function quietnessAt(loudness: Loudness, row: number, usual: Usual): Quietness {
  const near = [row - 1, row, row + 1].map((at) => levelsAt(loudness, at));
  const least = (bands: readonly Band[], unit: (band: Band) => number) =>
    Math.max(...near.map((levels) => quietestThird(levels.map((level, band) => (level - bands[band]!.medianDb) / unit(bands[band]!)))));
  return { spreads: least(usual.all, ({ spreadDb }) => spreadDb), stepDb: usual.heard && least(usual.heard, () => 1) };
}

function quietestThird(steps: readonly number[]): number {
  const count = Math.ceil(steps.length / 3);
  return (
    [...steps]
      .sort((a, b) => a - b)
      .slice(0, count)
      .reduce((sum, step) => sum + step, 0) / count
  );
}
