/** The whole diary as it is drawn on the screen: worked out once for a diary, and which days of it may be chosen. */
import { daysBetween } from '@evenhand/core/day';
import type { DiaryView } from '@evenhand/core/diary';
import {
  type BlockResult,
  type KnownTempo,
  type LaneMove,
  laneMoves,
  laneTempi,
  type PhraseLane,
  partOfWhole,
  type WholeDiary,
  wholeDiary,
} from '@evenhand/core/progress';

/** A diary of fewer days is seen whole in the other pictures. Assumption: two weeks. */
const FEWEST_DAYS = 14;

const known = new WeakMap<DiaryView, { readonly today: string; readonly whole: WholeDiary | null }>();

/** The whole diary; null while there is little of it. */
export function wholeOf(diary: DiaryView, results: readonly BlockResult[], today: string): WholeDiary | null {
  const before = known.get(diary);
  if (before?.today === today) return before.whole;
  const all = wholeDiary(diary, results, today);
  const whole = all && daysBetween(all.from, all.to) >= FEWEST_DAYS ? all : null;
  known.set(diary, { today, whole });
  return whole;
}

/** Of lanes by the id of the sticking point: clean tempi, and where each stood still or jumped. */
export interface LanesKnown {
  readonly tempi: ReadonlyMap<string, readonly KnownTempo[]>;
  readonly moves: ReadonlyMap<string, readonly LaneMove[]>;
}

/** In a picture of more phrases no standstill or jump is marked: one year of it has them. Assumption: each phrase takes some tenths of a second. */
const MOST_MARKED = 12;

/** The phrases whose standstills and jumps are marked: all that are shown, or none where they are many. */
export const markedLanes = (shown: WholeDiary): readonly PhraseLane[] => (shown.lanes.length <= MOST_MARKED ? shown.lanes : []);

/** What is drawn of them. */
export const markedIn = (shown: WholeDiary, { tempi, moves }: LanesKnown): LanesKnown => ({
  tempi,
  moves: new Map(markedLanes(shown).map(({ stickingPointId: id }) => [id, moves.get(id) ?? []])),
});

const worked = new WeakMap<WholeDiary, { readonly tempi: Map<string, readonly KnownTempo[]>; readonly moves: Map<string, readonly LaneMove[]> }>();

function workedOf(whole: WholeDiary) {
  const before = worked.get(whole) ?? { tempi: new Map(), moves: new Map() };
  worked.set(whole, before);
  return before;
}

/** What is worked out of them already. */
export function lanesKnown(whole: WholeDiary): LanesKnown {
  const { tempi, moves } = workedOf(whole);
  return { tempi: new Map(tempi), moves: new Map(moves) };
}

/** Works out the clean tempi of one lane; they are remembered with the diary. */
export function workOutLane(whole: WholeDiary, lane: PhraseLane, results: readonly BlockResult[]): void {
  const { tempi } = workedOf(whole);
  if (!tempi.has(lane.stickingPointId)) tempi.set(lane.stickingPointId, laneTempi(results, lane, whole.lanes.length));
}

/** Works out where one stood still or jumped; the same. */
export function workOutMoves(whole: WholeDiary, lane: PhraseLane, results: readonly BlockResult[]): void {
  const { moves } = workedOf(whole);
  if (!moves.has(lane.stickingPointId)) moves.set(lane.stickingPointId, laneMoves(results, lane));
}

/** The years of a diary, the latest first; none where it is no longer than one. */
export function yearsOf({ from, to }: WholeDiary): readonly string[] {
  const [first, last] = [Number(from.slice(0, 4)), Number(to.slice(0, 4))];
  return daysBetween(from, to) <= YEAR_DAYS ? [] : Array.from({ length: last - first + 1 }, (_, k) => String(last - k));
}

/** All of it, or one year. */
export const yearOfWhole = (whole: WholeDiary, year: string): WholeDiary =>
  year === '' ? whole : partOfWhole(whole, { from: `${year}-01-01`, to: `${year}-12-31` });

/** A year and some days. Assumption. */
const YEAR_DAYS = 380;
