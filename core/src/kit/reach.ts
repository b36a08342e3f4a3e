/** What limbs reach: strokes a second in bursts, ways between drums, crossed hands; by usual figures, and by this player's own where there are any. */
import type { Limb } from '../sticking/index.ts';
import { CROSSED_LIMIT_CM, CROSSED_WITHIN_SEC, OTHER_SIDE_SHARE, STRETCH_SHARE, TRAVEL_CM_PER_SEC, USUAL_REACH_PER_SEC } from './parameters.ts';
import { distanceCm, type KitSide, placeOfDrum } from './places.ts';

/** Lengths of bursts that are told apart; 8 stands for going on. */
export const BURSTS = [2, 3, 4, 8] as const;
export type Burst = (typeof BURSTS)[number];

/** Strokes a second by length of the burst. */
export type BurstRates = Readonly<Record<Burst, number>>;
export type Reach = Readonly<Record<Limb, BurstRates>>;

/** One stroke of a loop. */
export interface LoopStroke {
  readonly limb: Limb;
  readonly drum: string;
  /** Seconds from the start of the loop. */
  readonly timeSec: number;
}

/** Something this player has played, and whether it was clean. */
export interface PlayedBurst {
  readonly limb: Limb;
  readonly burst: Burst;
  readonly perSec: number;
  readonly clean: boolean;
}

/** What a loop asks beyond the reach so far. Not that it cannot be played: that it has not been yet. */
export type BeyondReach =
  | { readonly kind: 'burst'; readonly limb: Limb; readonly burst: Burst; readonly perSec: number; readonly soFarPerSec: number }
  | { readonly kind: 'travel'; readonly limb: Limb; readonly from: string; readonly to: string; readonly gapSec: number }
  | { readonly kind: 'crossed'; readonly right: string; readonly left: string };

const scaled = (rates: BurstRates, share: number): BurstRates => ({
  2: rates[2] * share,
  3: rates[3] * share,
  4: rates[4] * share,
  8: rates[8] * share,
});

/** Usual figures, where nothing is known of the player. @param side the stronger hand and foot. */
export function usualReach(side: 'R' | 'L' = 'R'): Reach {
  const { hand, foot } = USUAL_REACH_PER_SEC;
  const other = { hand: scaled(hand, OTHER_SIDE_SHARE), foot: scaled(foot, OTHER_SIDE_SHARE) };
  const right = side === 'R';
  return { R: right ? hand : other.hand, L: right ? other.hand : hand, K: foot, H: other.foot };
}

/**
 * The reach of this player so far: the usual figure, less where something slower was not clean, more where something as fast or faster was; a clean
 * one reaches a little further than itself. What held over a longer burst holds over a shorter one; a longer one reaches no further than a shorter.
 */
export function reachSoFar(played: readonly PlayedBurst[], usual: Reach = usualReach()): Reach {
  const of = (limb: Limb): BurstRates => {
    const own = played.filter((each) => each.limb === limb);
    let shorter = Number.POSITIVE_INFINITY;
    const [two, three, four, on] = BURSTS.map((burst) => {
      const fastestClean = Math.max(0, ...own.filter((each) => each.clean && each.burst >= burst).map(({ perSec }) => perSec));
      const failed = own.filter((each) => !each.clean && each.burst === burst && each.perSec > fastestClean).map(({ perSec }) => perSec);
      shorter = Math.min(shorter, Math.max(fastestClean * STRETCH_SHARE, Math.min(usual[limb][burst], ...failed)));
      return shorter;
    });
    return { 2: two!, 3: three!, 4: four!, 8: on! };
  };
  return { R: of('R'), L: of('L'), K: of('K'), H: of('H') };
}

/** A loop that was played, as what it asked of each limb. @param clean whether it was. */
export function burstsOf(strokes: readonly LoopStroke[], lengthSec: number, clean: boolean): readonly PlayedBurst[] {
  const demands = demandsOf(strokes, lengthSec);
  return (['R', 'L', 'K', 'H'] as const).flatMap((limb) =>
    BURSTS.filter((burst) => demands[limb][burst] > 0).map((burst) => ({ limb, burst, perSec: demands[limb][burst], clean })),
  );
}

/**
 * The fastest bursts that a loop asks of each limb.
 * @param strokes in any order. @param lengthSec of the loop.
 * @returns strokes a second, (burst − 1) gaps over the time they take; 0 for a limb that does not play.
 * @example two kicks 0.1 s apart in a loop of a second ask for a burst of two at 10 a second
 */
export function demandsOf(strokes: readonly LoopStroke[], lengthSec: number): Reach {
  return {
    R: ratesOf(timesOf(strokes, 'R'), lengthSec),
    L: ratesOf(timesOf(strokes, 'L'), lengthSec),
    K: ratesOf(timesOf(strokes, 'K'), lengthSec),
    H: ratesOf(timesOf(strokes, 'H'), lengthSec),
  };
}

const timesOf = (strokes: readonly LoopStroke[], limb: Limb): readonly number[] =>
  strokes
    .filter((each) => each.limb === limb)
    .map(({ timeSec }) => timeSec)
    .sort((a, b) => a - b);

const NO_RATES: BurstRates = { 2: 0, 3: 0, 4: 0, 8: 0 };

function ratesOf(times: readonly number[], lengthSec: number): BurstRates {
  const count = times.length;
  if (count === 0) return NO_RATES;
  const fastest = (burst: Burst): number => {
    let shortestSec = Number.POSITIVE_INFINITY;
    for (let i = 0; i < count; i++) {
      const end = i + burst - 1;
      shortestSec = Math.min(shortestSec, times[end % count]! + Math.floor(end / count) * lengthSec - times[i]!);
    }
    return (burst - 1) / shortestSec;
  };
  return { 2: fastest(2), 3: fastest(3), 4: fastest(4), 8: fastest(8) };
}

/** The larger of two reaches, burst by burst. */
export function widerReach(a: Reach, b: Reach): Reach {
  const of = (limb: Limb): BurstRates => ({
    2: Math.max(a[limb][2], b[limb][2]),
    3: Math.max(a[limb][3], b[limb][3]),
    4: Math.max(a[limb][4], b[limb][4]),
    8: Math.max(a[limb][8], b[limb][8]),
  });
  return { R: of('R'), L: of('L'), K: of('K'), H: of('H') };
}

/** Rates that differ by no more are the same. Reason: sums of thirds of a beat in binary. */
const SAME = 1 + 1e-9;

/**
 * What a loop asks beyond a reach, each thing once; none when all of it lies within.
 * @param reach of `reachSoFar` or `usualReach`.
 */
export function beyondReach(
  strokes: readonly LoopStroke[],
  lengthSec: number,
  options: { readonly reach: Reach; readonly side?: KitSide },
): readonly BeyondReach[] {
  const { reach, side = 'R' } = options;
  const demands = demandsOf(strokes, lengthSec);
  const bursts = (['R', 'L', 'K', 'H'] as const).flatMap((limb) =>
    BURSTS.filter((burst) => demands[limb][burst] > reach[limb][burst] * SAME).map(
      (burst): BeyondReach => ({ kind: 'burst', limb, burst, perSec: demands[limb][burst], soFarPerSec: reach[limb][burst] }),
    ),
  );
  return [...bursts, ...tooFar(strokes, lengthSec), ...crossed(strokes, lengthSec, side)];
}

/** Ways between drums for which a hand has not the time. */
function tooFar(strokes: readonly LoopStroke[], lengthSec: number): readonly BeyondReach[] {
  return (['R', 'L'] as const).flatMap((limb) => {
    const own = strokes.filter((each) => each.limb === limb).sort((a, b) => a.timeSec - b.timeSec);
    const ways = own.map((from, i) => {
      const to = own[(i + 1) % own.length]!;
      const gapSec = to.timeSec - from.timeSec + (i + 1 === own.length ? lengthSec : 0);
      return { kind: 'travel' as const, limb, from: from.drum, to: to.drum, gapSec };
    });
    return ways.filter(({ from, to, gapSec }) => distanceCm(from, to) / TRAVEL_CM_PER_SEC > gapSec * SAME).slice(0, 1);
  });
}

/** The right hand further to the left of the left hand than arms cross well. */
function crossed(strokes: readonly LoopStroke[], lengthSec: number, side: KitSide): readonly BeyondReach[] {
  const of = (limb: Limb) => strokes.filter((each) => each.limb === limb);
  const near = (a: number, b: number) => {
    const apart = Math.abs(a - b) % lengthSec;
    return Math.min(apart, lengthSec - apart) <= CROSSED_WITHIN_SEC;
  };
  for (const right of of('R')) {
    for (const left of of('L')) {
      if (right.drum === left.drum || !near(right.timeSec, left.timeSec)) continue;
      const [r, l] = [placeOfDrum(right.drum, side), placeOfDrum(left.drum, side)];
      if (r && l && l.xCm - r.xCm > CROSSED_LIMIT_CM) return [{ kind: 'crossed', right: right.drum, left: left.drum }];
    }
  }
  return [];
}
