/** Numbers that decide how a session is laid out in time. */

/** Bars of the exercise in a round, and of plain time after it, where the cycle allows. @source [JobBrief] "four bars of exercise, four of plain time" */
export const ROUND_BARS = 4;

/** Count in with two bars while they last no longer than this, else with one. @source [TempoArithmetic] two bars of 4/4 at 80 are 6 s */
export const TWO_BAR_COUNT_IN_SEC = 6;

/** Time between the start and the first click, to take up the sticks. Assumption. */
export const START_LEAD_SEC = 2;

/** Time between two blocks, to look at what was heard. Assumption: one sentence is read in five seconds, and hands rest. */
export const BREATHER_SEC = 8;

/** No more than this share of a short block goes to the breather or to the count-in. Assumption. */
export const SHORT_BLOCK_SHARE = 0.25;

/** How long a take stays open after the last beat, so that the last stroke rings out. Assumption: longer than the 20 ms that volume is taken over. */
export const TAKE_TAIL_SEC = 0.25;

/**
 * When a tempo moves within a block: announced at least so long before its bar line, with at least so many bars of plain time at the new tempo before
 * the exercise comes again; down only on so many runs by ear, or words. Assumptions, held against simulated players in
 * follow.test.ts: they come near the tempo that holds and turn seldom (decision 0075)
 */
export const FOLLOW = { leadSec: 0.3, plainBars: 1, fewestRuns: 8, fewestWords: 2 } as const;

/** How much "slower" and "faster" are, as a share of the tempo. Assumption: a step that everybody notices and nobody stumbles over. */
export const ASKED_STEP_SHARE = 0.05;

/** Bars that "keep that" keeps. @source [JobBrief] the last eight bars */
export const KEPT_BARS = 8;

/** How long the end of a session waits for the ear before it closes without. Assumption: twenty times what a three-minute take needs. */
export const LISTEN_LIMIT_SEC = 60;

/**
 * When a sound begins as a knock: hops of a millisecond; so much louder than the hops before and than what is always there; never softer than −66 dB;
 * no two nearer than a flam; judged after 80 ms, kept for 120. @tuned bench/session: every voice of core/sound, and ../shared's development takes
 */
export const KNOCK = { rise: 10, beforeHops: 15, riseHops: 4, leastPower: 2.5e-7, apartHops: 45, toldHops: 80, keptHops: 120 } as const;

/**
 * Two sticks struck together ring between 2 and 8 kHz: more there than below, more than above, and 15 dB softer after 50 ms; and 20 dB over what rings on from before. Modes of a rod with
 * free ends [FletcherRossing1998]; the limits @tuned bench/session
 */
export const STICKS = { fromHz: 1700, toHz: 8000, brightDb: 2, hissDb: 3, fallDb: 15, clearDb: 20 } as const;

/**
 * Stick clicks that are meant: evenly spaced at 40 to 300 a minute, none much softer than the loudest, quiet before the first and after the last,
 * nothing else between. Assumptions: a drummer's count-in is far more even; the quiet is what playing does not have. Ten minutes of other
 * drumming say nothing: bench/session.
 */
export const COUNT = {
  ...{ shortestSec: 0.2, longestSec: 1.5, unevenShare: 0.15, softerDb: 12 },
  ...{ quietBeforeSec: 0.5, quietAfterSec: 0.4, quietAfterShare: 1.5, most: 16 },
} as const;
