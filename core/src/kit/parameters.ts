/** Numbers that decide about places and reach. */

/**
 * Strokes a second that a limb keeps over bursts of 2, 3, 4 and 8 (from there on), before anything is known of the player.
 * Hands: two in a row at 16 is a 32nd double at 120, from rebound (assumption); the fastest drummer's one hand kept 10, people in general 5 to 7
 * @source [Fujii2009], so that 8 of a trained hand lies between; three and four between those (assumption).
 * Feet: kick pairs up to 13.3 a second stand in 35 of 60 recordings @source [Gillick2019] computed from it; feet in general go on at 4 to 5 (FACTS.md 2, from memory); three and four between (assumption).
 * The other hand and the other foot reach a little less (assumption).
 */
export const USUAL_REACH_PER_SEC = {
  hand: { 2: 16, 3: 12, 4: 10, 8: 8.5 },
  foot: { 2: 13.3, 3: 9, 4: 7.5, 8: 6 },
} as const;

/** Share of it that the other side has: drummers' hands differ less than other people's, but they differ @source [FujiiOda2006]; how much is an assumption. */
export const OTHER_SIDE_SHARE = 0.95;

/** How far above what was clean so far the next thing may lie. Assumption: a tenth is a stretch, and not a leap. */
export const STRETCH_SHARE = 1.1;

/** How fast a stick gets from drum to drum, cm a second, the stroke's own lift left out. Assumption: half a metre in an eighth of a second. */
export const TRAVEL_CM_PER_SEC = 400;

/** Hands may cross by so much: over the snare to the hi-hat and a hand's breadth. Assumption. */
export const CROSSED_LIMIT_CM = 60;

/** Hands cross when one plays so shortly after the other that both arms are there. Assumption: a 16th at 100. */
export const CROSSED_WITHIN_SEC = 0.15;
