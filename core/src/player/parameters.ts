/** Numbers that decide how the simulated drummer errs. */

/** How much a player errs: the figures of one style. */
export interface Style {
  /** Deviation of one interval of the inner clock, ms (Wing and Kristofferson's σ_C). */
  readonly clockSdMs: number;
  /** Deviation of the delay from inner clock to stroke, ms (their σ_M). */
  readonly motorSdMs: number;
  /** Share of the distance to the true time that the inner clock takes back at each stroke; 0 runs freely. */
  readonly correction: number;
  /** Deviation of the volume of a stroke, dB. */
  readonly levelSdDb: number;
  /** Deviation of the change of tempo from beat to beat, as a share of the tempo. */
  readonly wanderShare: number;
  /** How much of their size errors gain at twice the easy rate; HURRY_GAIN unless said. */
  readonly hurryGain?: number;
}

/**
 * Three players. Together clock and motor give 8, 15 and 25 ms, volume 1, 2 and 3 dB.
 * Assumption: no such figures are published; the split into clock and motor, and the correction, are assumptions too.
 */
export const styles: Readonly<Record<'expert' | 'intermediate' | 'beginner', Style>> = {
  expert: { clockSdMs: 4.5, motorSdMs: 4, correction: 0.25, levelSdDb: 1, wanderShare: 0.001 },
  intermediate: { clockSdMs: 9, motorSdMs: 6.5, correction: 0.25, levelSdDb: 2, wanderShare: 0.003 },
  beginner: { clockSdMs: 15, motorSdMs: 11, correction: 0.25, levelSdDb: 3, wanderShare: 0.006 },
};

/** No error at all: what a machine would play. */
export const exact: Style = { clockSdMs: 0, motorSdMs: 0, correction: 0, levelSdDb: 0, wanderShare: 0 };

/** Strokes of one limb per second up to which errors do not grow. @source [Fujii2009] most people tap at most 5 to 7 times a second */
export const EASY_RATE_HZ = 5;

/** How much of their size errors gain when a limb plays at twice the easy rate. Assumption: no figure is published. */
export const HURRY_GAIN = 1;

/** The tempo never strays further than this from the one told, as a share. Assumption. */
export const WANDER_LIMIT_SHARE = 0.05;

/** Non-zero samples per second of the room's noise. @source [KarjalainenJarvelainen2007] velvet noise is smooth from about 1500 */
export const ROOM_TAPS_PER_SEC = 2000;

/** One bounce too many: how long after its stroke, and how much softer. Assumption. */
export const BOUNCE = { gapSec: 0.075, lossDb: 9 } as const;
