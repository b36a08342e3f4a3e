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

/** How long the end of a session waits for the ear before it closes without. Assumption: twenty times what a three-minute take needs. */
export const LISTEN_LIMIT_SEC = 60;
