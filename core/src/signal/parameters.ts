/** Numbers of the published measure of loudness. */
import type { Biquad } from './biquad.ts';

/** Sample rate for which the filters are published, Hz. @source [BS1770] annex 1 */
export const LOUDNESS_RATE_HZ = 48_000;

/** The head: a shelf that lifts the high. @source [BS1770] annex 1, table 1 */
export const HEAD_SHELF: Biquad = { b: [1.53512485958697, -2.69169618940638, 1.19839281085285], a: [1, -1.69065929318241, 0.73248077421585] };

/** A high-pass for what is heard less: the low. @source [BS1770] annex 1, table 2 */
export const LOW_CUT: Biquad = { b: [1, -2, 1], a: [1, -1.99004745483398, 0.99007225036621] };

/** Loudness of a mean square of 1, LKFS. @source [BS1770] annex 1, equation 2 */
export const LOUDNESS_OFFSET = -0.691;

/** Blocks over which the mean square is taken, and how often one begins, seconds: three quarters overlap. @source [BS1770] annex 1 */
export const LOUDNESS_BLOCK_SEC = 0.4;
export const LOUDNESS_STEP_SEC = 0.1;

/** Blocks softer than this are silence, LKFS. @source [BS1770] annex 1, equation 6 */
export const SILENCE_GATE_LKFS = -70;

/** Blocks so much under the loudness of the rest do not count, LU. @source [BS1770] annex 1, equation 7 */
export const REST_GATE_LU = -10;

/**
 * A sound slowed: what is kept before and after an attack, how far two attacks are apart at least, how long parts are joined, and by how much pieces move on, seconds.
 * @source [VerhelstRoelands1993] pieces of 20 to 30 ms that overlap by half (of 20, 30 and 40 those of 30 left fewest bumps that our ear takes for strokes); the rest assumption: an attack and its colour are over by then, and the ear may tell an attack a little late.
 */
export const SLOWER = { leadSec: 0.005, attackSec: 0.03, togetherSec: 0.004, joinSec: 0.002, hopSec: 0.015 } as const;
