/** The numbers that decide whether a run is clean and what tempo comes next. */

/** Main strokes that make a run. */
export const RUN_STROKES = 8;

/** How many times what is just heard a stroke may lie off. */
export const TOLERANCE_FACTORS = { wide: 4, medium: 3, narrow: 2 } as const;

/** A place's mean volume may lie this far from the shape wanted. Assumption: three times what can just be heard. */
export const VOLUME_DB = 3;

/** Share of clean runs to practise at. @source [Wilson2019] Φ(1) = 84.13 %, rounded. */
export const TARGET_SHARE = 0.85;

/** The tempo rises only when at least this share is sure (Wilson, 95 %): twelve runs that are all clean, or 36 of 40. @tuned bench/tempo: work then stays near 85 % */
export const SURE_SHARE = 0.75;

/**
 * How many runs a round by the player's word counts as when the tempo is to rise: four rounds had one after the other are then as sure as twelve
 * clean runs. Up after four in a row is the rule that settles near 84 % [Levitt1971]; a usual round has eight runs or so, of which the ear would count
 * each (WORD_WEIGHT: half). @tuned bench/tempo/byword.ts on its tuning seeds: two leave players further below, four move them no nearer
 */
export const WORD_RUNS = 3;

/** So many more clean runs or rounds are told as what is missing, no more. Assumption: a block of three minutes holds them. */
export const MORE_TOLD = 12;

/** Step when every run is clean, and the limits of any step, as shares of the tempo. Assumption within what is noticed. */
export const STEP_SHARE = 0.05;
export const LARGEST_FALL_SHARE = 0.15;
/** Smallest change of tempo worth making. @source [Drake1993] 3 % over six intervals, 1.5 % at best. */
export const SMALLEST_STEP_SHARE = 0.03;

/**
 * Work on an exercise falls to no less than this share of the tempo it was begun at, or of the fastest at which it surely held: there it is too
 * hard for now. Assumption: four of the largest falls, one after the other, with nothing that held between them.
 */
export const TOO_HARD_SHARE = 0.5;

/** Results at tempi this near count as one tempo. @source [Drake1993] 1.5 %, the best anybody notices. */
export const SAME_TEMPO_SHARE = 0.015;

/** Clean tempi that are weighed: a step finer than anybody notices, as far as a factor beyond what was played. Assumption. */
export const BELIEF_GRID = { stepShare: 0.01, reach: 2 } as const;

/** How gradually clean runs fail, in log tempo, and how likely each is at first. @tuned bench/tempo on its tuning seeds */
export const SLOPES = [
  { slope: 0.02, weight: 0.07 },
  { slope: 0.03, weight: 0.21 },
  { slope: 0.045, weight: 0.36 },
  { slope: 0.07, weight: 0.25 },
  { slope: 0.1, weight: 0.11 },
] as const;

/**
 * How the clean tempo moves from one day to another, in log tempo. Up by what a day of practice leaves, which halves in `gainDays` days of
 * practice; down a little with each day away; and it strays: from the night, from each day, at most; and now and then by up to `jumpReach`, the more
 * likely the longer. @tuned bench/tempo on its tuning seeds
 */
export const DRIFT = {
  ...{ gain: 0.045, gainDays: 6, lossPerDay: 0.0025, mostLossDays: 60 },
  ...{ nightSd: 0.02, daySd: 0, mostSd: 0.15 },
  ...{ jumpReach: 0.2, jumpShare: 0.005, jumpSharePerDay: 0.0005, mostJumpShare: 0.2 },
} as const;

/** How alike runs of one block are beyond the tempo they share. @tuned bench/tempo on its tuning seeds */
export const BLOCK_LIKENESS = 0.006;

/** How sure a tempo is that is expected from other exercises, deviation in log tempo. Assumption: a sixth off either way is no surprise. */
export const CARRIED_SD = 0.16;

/** Search for a tempo: at most two minutes; steps of one bar count-in, one bar played and a breath; narrow enough when the 90 % range is within ±4 %; candidates. Our choice. */
export const FIND = { mostSec: 115, bars: 1, breathSec: 1, narrowRatio: 1.08, tailShare: 0.01, beyond: 1.05, candidates: 40 } as const;

/**
 * A tempo from taps: the slowest and fastest told, the pause that begins anew (longer than a beat at the slowest that is tapped beat by beat), how
 * far an interval may lie from the usual one, fewest taps and most that are looked at. Assumptions.
 */
export const TAPPED = { slowestBpm: 20, fastestBpm: 400, pauseSec: 3.2, slipShare: 0.25, fewest: 3, most: 12 } as const;

/** Share of runs that fail at any tempo. @source [Watson2017] usual values .01 to .02. */
export const LAPSE_SHARE = 0.02;

/** How much a result counts that rests on the player's word. Assumption: half. */
export const WORD_WEIGHT = 0.5;

/** Fewest runs a clean tempo is told from. Assumption: two rounds of a short phrase. */
export const FEWEST_RUNS = 8;

/** A 90 % interval wider than this from end to end is told as "too little yet". Assumption: 80 to 104 says nothing about what to practise. */
export const WIDEST_RATIO = 1.3;

/**
 * Other shapes than a fall: how likely each is beforehand against it, how sure it must be before it is told, how deep a poor zone is and how
 * sharp its edges are in log tempo; grids; days in which a result comes to count half. Assumptions, false alarms counted in bench/tempo.
 */
export const SHAPE = {
  ...{ prior: 0.1, sure: 0.95, depth: 0.8, edgeWidth: 0.015, halfLifeDays: 14 },
  ...{ edges: 16, tops: 20, slopes: [0.03, 0.06] },
} as const;

/**
 * Forecast of the clean tempo: from so many days with a figure over so long a span; no further than half a year; rises that halve what is
 * missing in 5 to 80 days, ceilings up to three quarters above what was reached, a quarter being usual; how much less sure than told each figure
 * is. Assumptions
 */
export const FORECAST = {
  ...{ fewestDays: 5, fewestSpanDays: 7, horizonWeeks: 26 },
  ...{ rates: [0.14, 0.1, 0.07, 0.05, 0.035, 0.025, 0.018, 0.012, 0.009], ceilings: 40, ceilingStep: 0.015, usualAbove: 0.25 },
  ...{ sdFactor: 1.5, leastSd: 0.01 },
} as const;

/**
 * Share of a known speed at which another exercise begins, by what it keeps of it. @source [MeyerPalmer2003] for the order (a kept movement or
 * rhythm slows players down less); the sizes, how much a player's own pairs weigh against them, and the limits are assumptions.
 */
export const CARRY = {
  ...{ share: { sticking: 0.95, rhythm: 0.9, nothing: 0.85 }, otherDrumsShare: 0.97, highestShare: 0.98 },
  ...{ usualWeight: 2, otherWeight: 0.25, mostOff: 0.5 },
} as const;
